/* SPDX-License-Identifier: 0BSD */
/*
 * Counts time with timer0.
 *
 * bee-hive watch, for ATtiny13A. Written by ullage from a loop file: to change
 * a number, change it there and emit again.
 */
#include "../src/pace.h"

#include <avr/interrupt.h>
#include <avr/io.h>

#include "../src/outputs.h"

/* Matches of the timer; the program follows with what it has seen. */
volatile uint8_t pace_count;
static uint8_t pace_seen;

/* By hand, because a compiler saves more registers than one increment needs. */
ISR(TIM0_COMPA_vect, ISR_NAKED)
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
    TCCR0A = fixed_u8((1 << WGM01));
    OCR0A = fixed_u8(PACE_TOP);
    TIMSK0 = fixed_u8(1 << OCIE0A);
    TCCR0B = fixed_u8(PACE_CLOCK_SELECT);
    sei();
}

void pace_rest(void)
{
    period_t left = fixed_period(PERIOD_TICKS);

    do {
        while ((uint8_t)(pace_count - pace_seen) < PACE_COUNTS) {
        }
        pace_seen = (uint8_t)(pace_seen + PACE_COUNTS);
        outputs_step();
    } while (--left != 0);
}
