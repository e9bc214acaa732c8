/* SPDX-License-Identifier: 0BSD */
/*
 * Counts time with timer1.
 *
 * cold-store guard, for ATmega328P. Written by ullage from a loop file: to change
 * a number, change it there and emit again.
 */
#include "../src/pace.h"

#include <avr/io.h>

#include "../src/outputs.h"

void pace_begin(void)
{
    OCR1A = fixed_u16(PACE_TOP);
    TCCR1B = fixed_u8((1 << WGM12) | PACE_CLOCK_SELECT);
}

void pace_rest(void)
{
    period_t left = fixed_period(PERIOD_TICKS);

    do {
        while ((TIFR1 & (1 << OCF1A)) == 0) {
        }
        TIFR1 = (1 << OCF1A);
        outputs_step();
    } while (--left != 0);
}
