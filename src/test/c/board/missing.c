#include "missing.h"

#include <stdbool.h>
#include <stddef.h>
#include <string.h>

#include <simavr/avr_adc.h>
#include <simavr/avr_extint.h>
#include <simavr/avr_timer.h>
#include <simavr/avr_watchdog.h>

#include "bus_checker.h"
#include "pins.h"

/* Data addresses, from the register summaries of the data sheets. */
#define TINY13_LAST_IO 0x5F
#define TINYX5_PORTB 0x38
#define OC1A 0x02
#define OCR1C 0x4D
#define OCR1A 0x4E
#define TCCR1 0x50
#define COM1A0 0x10
#define CTC1 0x80
#define CLOCK_SELECT 0x0F

#define EXTERNAL_INTERRUPTS 8
#define SLEEP_INSTRUCTION 0x9588

/* How a part is put to sleep: data sheets, "Sleep Modes" and the register beside it. */
struct sleep {
    const char *parts;
    uint16_t control;
    uint8_t enable, modes, power_down;
};
static const struct sleep sleeps[] = {
    {"attiny13 attiny13a attiny25 attiny45 attiny85 attiny24 attiny44 attiny84", 0x55, 0x20, 0x18,
     0x10},
    {"attiny2313 attiny2313a attiny4313", 0x55, 0x20, 0x50, 0x10},
    {"atmega8 atmega8l", 0x55, 0x80, 0x70, 0x20},
    {"atmega16 atmega32", 0x55, 0x40, 0xB0, 0x20},
    {"", 0x53, 0x01, 0x0E, 0x04}, /* All others. */
};
/* Pins of the compare outputs A, and the registers that set their mode: data sheets. */
struct tone {
    const char *parts;
    char timer;
    uint16_t mode;
    const char *pin;
};
static const struct tone tones[] = {
    {"attiny13 attiny13a", '0', 0x4F, "B0"},
    {"attiny24 attiny44 attiny84", '0', 0x50, "B2"},
    {"attiny24 attiny44 attiny84", '1', 0x4F, "A6"},
    {"at90usb82 at90usb162", '0', 0x44, "B7"},
    {"at90usb82 at90usb162", '1', 0x80, "C6"},
};
static const struct sleep *sleep_of;
static avr_timer_t *timer1;
static avr_watchdog_t *watchdog;
static unsigned idle_naps, deep_naps;

static avr_timer_t *timer(avr_t *avr, char name)
{
    for (avr_io_t *io = avr->io_port; io != NULL; io = io->next) {
        if (strcmp(io->kind, "timer") == 0 && ((avr_timer_t *)io)->name == name) {
            return (avr_timer_t *)io;
        }
    }
    return NULL;
}

/* Wires the compare outputs that the simulator has on other pins, or on none. */
static void wire_tones(avr_t *avr, const char *part)
{
    for (size_t i = 0; i < sizeof tones / sizeof tones[0]; i++) {
        const struct tone *tone = &tones[i];
        avr_timer_comp_t *a;

        if (strstr(tone->parts, part) != NULL) {
            a = &timer(avr, tone->timer)->comp[AVR_TIMER_COMPA];
            a->com = (avr_regbit_t)AVR_IO_REGBITS(tone->mode, 6, 0x3);
            a->com_pin.reg = pin_of(avr, tone->pin).port->r_port;
            a->com_pin.bit = (unsigned)(tone->pin[1] - '0') & 7u;
            a->com_pin.mask = 1;
        }
    }
}

/* The simulator lacks the upper four of the tinyx4's single-ended channels. */
static void add_tinyx4_channels(avr_t *avr)
{
    for (avr_io_t *io = avr->io_port; io != NULL; io = io->next) {
        if (strcmp(io->kind, "adc") == 0) {
            for (uint8_t i = 4; i < 8; i++) {
                ((avr_adc_t *)io)->muxmode[i] = (avr_adc_mux_t)AVR_ADC_SINGLE(i);
            }
        }
    }
}

static avr_cycle_count_t prescale(const avr_t *avr)
{
    return (avr_cycle_count_t)1 << ((avr->data[TCCR1] & CLOCK_SELECT) - 1);
}

/* Counts from a match with OCR1A to the next: CTC1 lets the counter go up to OCR1C. */
static avr_cycle_count_t match(avr_t *avr, avr_cycle_count_t when, void *unused)
{
    unsigned top = (avr->data[TCCR1] & CTC1) != 0 ? avr->data[OCR1C] : 255u;

    (void)unused;
    if (avr->data[OCR1A] <= top) {
        avr_raise_interrupt(avr, &timer1->comp[AVR_TIMER_COMPA].interrupt);
        if ((avr->data[TCCR1] & COM1A0) != 0) {
            avr->data[TINYX5_PORTB] ^= OC1A;
        }
    }
    return when + (top + 1u) * prescale(avr);
}

/* Setting the clock starts the counter; the rest of the register does not disturb it. */
static void write_tccr1(avr_t *avr, avr_io_addr_t address, uint8_t value, void *unused)
{
    bool started = (avr->data[address] & CLOCK_SELECT) != (value & CLOCK_SELECT);

    (void)unused;
    avr->data[address] = value;
    if (started) {
        avr_cycle_timer_cancel(avr, match, NULL);
        if ((value & CLOCK_SELECT) != 0) {
            avr_cycle_timer_register(avr, (avr->data[OCR1A] + 1u) * prescale(avr), match, NULL);
        }
    }
}

/* Timer1 of the tiny25/45/85 is taken away from the simulator. */
static void take_tinyx5_timer1(avr_t *avr)
{
    timer1 = timer(avr, '1');
    avr->io[AVR_DATA_TO_IO(TCCR1)].w.c = write_tccr1;
    avr->io[AVR_DATA_TO_IO(OCR1A)].w.c = NULL;
    avr->io[AVR_DATA_TO_IO(OCR1C)].w.c = NULL;
}

void missing_begin(avr_t *avr, const char *part)
{
    for (avr_io_t *io = avr->io_port; io != NULL; io = io->next) {
        if (strcmp(io->kind, "watchdog") == 0) {
            watchdog = (avr_watchdog_t *)io;
        }
    }
    wire_tones(avr, part);
    if (strncmp(part, "attiny13", 8) == 0) {
        avr->ioend = TINY13_LAST_IO; /* A reset clears what is below. */
    }
    if (strstr("attiny24 attiny44 attiny84", part) != NULL) {
        add_tinyx4_channels(avr);
    }
    if (strlen(part) == 8 && strncmp(part, "attiny", 6) == 0 && part[7] == '5') {
        take_tinyx5_timer1(avr);
    }
    sleep_of = sleeps;
    while (sleep_of->parts[0] != '\0' && strstr(sleep_of->parts, part) == NULL) {
        ++sleep_of;
    }
}

void missing_reset(avr_t *avr)
{
    /* Else a low pin that could interrupt is looked at in every cycle, which costs most of the time. */
    for (uint8_t i = 0; i < EXTERNAL_INTERRUPTS; i++) {
        avr_extint_set_strict_lvl_trig(avr, i, 0);
    }
}

/* The simulator sleeps whether sleep is enabled or not, and however deep. */
void missing_before(avr_t *avr, uint64_t ns)
{
    unsigned op = avr->flash[avr->pc] | (unsigned)avr->flash[avr->pc + 1] << 8;
    uint8_t control = avr->data[sleep_of->control];

    if (op != SLEEP_INSTRUCTION || avr->state != cpu_Running) {
        return;
    }
    if ((control & sleep_of->enable) == 0) {
        checker_violation(ns, "sleep is not enabled");
    } else if ((control & sleep_of->modes) == 0) {
        ++idle_naps;
    } else if ((control & sleep_of->modes) == sleep_of->power_down) {
        ++deep_naps;
    } else {
        checker_violation(ns, "an unknown sleep mode");
    }
}

void missing_after(avr_t *avr)
{
    static avr_cycle_count_t counted;

    if (watchdog != NULL && watchdog->cycle_count != counted) {
        counted = watchdog->cycle_count;
        avr_ioctl(avr, AVR_IOCTL_WATCHDOG_RESET, NULL);
    }
}

unsigned missing_naps(bool deep)
{
    return deep ? deep_naps : idle_naps;
}
