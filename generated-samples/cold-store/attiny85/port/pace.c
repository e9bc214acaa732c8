/* SPDX-License-Identifier: 0BSD */
/*
 * Counts time with timer1.
 *
 * cold-store guard, for ATtiny85. Written by ullage from a loop file: to change
 * a number, change it there and emit again.
 */
#include "../src/pace.h"

#include <avr/io.h>

#include "../src/outputs.h"

void pace_begin(void)
{
    OCR1C = fixed_u8(PACE_TOP);
    /* The flag comes from a register of its own. */
    OCR1A = fixed_u8(PACE_TOP);
    TCCR1 = fixed_u8((1 << CTC1) | PACE_CLOCK_SELECT);
}

void pace_rest(void)
{
    period_t left = fixed_period(PERIOD_TICKS);

    do {
        while ((TIFR & (1 << OCF1A)) == 0) {
        }
        TIFR = (1 << OCF1A);
        outputs_step();
    } while (--left != 0);
}
