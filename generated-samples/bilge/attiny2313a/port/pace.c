/* SPDX-License-Identifier: 0BSD */
/*
 * Counts time with timer1.
 *
 * bilge watch, for ATtiny2313A. Written by ullage from a loop file: to change
 * a number, change it there and emit again.
 */
#include "../src/pace.h"

#include <avr/interrupt.h>
#include <avr/io.h>
#include <avr/sleep.h>

#include "../src/outputs.h"

/* Matches of the timer; the program follows with what it has seen. */
volatile uint8_t pace_count;
static uint8_t pace_seen;

/* By hand, because a compiler saves more registers than one increment needs. */
ISR(TIMER1_COMPA_vect, ISR_NAKED)
{
    __asm__ volatile(
        "push r24\n\t"
        "in r24, __SREG__\n\t"
        "push r24\n\t"
        "lds r24, pace_count\n\t"
        "inc r24\n\t"
        "sts pace_count, r24\n\t"
        "pop r24\n\t"
        "out __SREG__, r24\n\t"
        "pop r24\n\t"
        "reti");
}

void pace_begin(void)
{
    OCR1A = fixed_u16(PACE_TOP);
    TIMSK = fixed_u8(1 << OCIE1A);
    TCCR1B = fixed_u8((1 << WGM12) | PACE_CLOCK_SELECT);
    MCUCR = fixed_u8((1 << SE));
    sei();
}

void pace_rest(void)
{
    period_t left = fixed_period(PERIOD_TICKS);

    do {
        /* No tick falls between looking and sleeping: sei acts one instruction later. */
        for (;;) {
            cli();
            if (pace_count != pace_seen) {
                break;
            }
            sei();
            sleep_cpu();
        }
        sei();
        pace_seen = (uint8_t)(pace_seen + 1);
        outputs_step();
    } while (--left != 0);
}
