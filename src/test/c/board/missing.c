#include "missing.h"

#include <stdbool.h>
#include <stddef.h>
#include <string.h>

#include <simavr/avr_timer.h>

/* Data addresses, from the register summaries of the data sheets. */
#define TINY13_PORTB 0x38
#define TINY13_TCCR0A 0x4F
#define TINY13_COM0A0 6
#define OCR1C 0x4D
#define OCR1A 0x4E
#define TCCR1 0x50
#define TIFR 0x58
#define OCF1A 0x40
#define CTC1 0x80
#define CLOCK_SELECT 0x0F

static bool is_tinyx5;

/* The tiny13's timer toggles OC0A, which is PB0. */
static void wire_tiny13_tone(avr_t *avr)
{
    for (avr_io_t *io = avr->io_port; io != NULL; io = io->next) {
        if (strcmp(io->kind, "timer") == 0) {
            avr_timer_comp_t *a = &((avr_timer_t *)io)->comp[AVR_TIMER_COMPA];

            a->com = (avr_regbit_t)AVR_IO_REGBITS(TINY13_TCCR0A, TINY13_COM0A0, 0x3);
            a->com_pin = (avr_regbit_t)AVR_IO_REGBIT(TINY13_PORTB, 0);
        }
    }
}

/* Timer1 of the tiny25/45/85 counts to OCR1C where CTC1 is set: taken away from the simulator. */
static void take_tinyx5_timer1(avr_t *avr)
{
    avr->io[AVR_DATA_TO_IO(TCCR1)].w.c = NULL;
    avr->io[AVR_DATA_TO_IO(OCR1A)].w.c = NULL;
    avr->io[AVR_DATA_TO_IO(OCR1C)].w.c = NULL;
}

void missing_begin(avr_t *avr, const char *part)
{
    if (strncmp(part, "attiny13", 8) == 0) {
        wire_tiny13_tone(avr);
    }
    is_tinyx5 = strlen(part) == 8 && strncmp(part, "attiny", 6) == 0 && part[7] == '5';
    if (is_tinyx5) {
        take_tinyx5_timer1(avr);
    }
}

/* Sets OCF1A when the counter passes OCR1A on its way to OCR1C. */
static void step_tinyx5_timer1(avr_t *avr)
{
    static avr_cycle_count_t round_began;
    static bool matched;
    unsigned select = avr->data[TCCR1] & CLOCK_SELECT;
    unsigned top = (avr->data[TCCR1] & CTC1) != 0 ? avr->data[OCR1C] : 255u;
    avr_cycle_count_t prescale, match;

    if (select == 0) {
        round_began = avr->cycle;
        return;
    }
    prescale = (avr_cycle_count_t)1 << (select - 1);
    match = (avr->data[OCR1A] + 1u) * prescale;
    if (!matched && avr->data[OCR1A] <= top && avr->cycle - round_began >= match) {
        matched = true;
        avr->data[TIFR] |= OCF1A;
    }
    if (avr->cycle - round_began >= (top + 1u) * prescale) {
        round_began += (top + 1u) * prescale;
        matched = false;
    }
}

void missing_step(avr_t *avr)
{
    if (is_tinyx5) {
        step_tinyx5_timer1(avr);
    }
}
