/* SPDX-License-Identifier: 0BSD */
/*
 * Counts time with timer0.
 *
 * bee-hive watch, for ATtiny88. Written by ullage from a loop file: to change
 * a number, change it there and emit again.
 */
#include "../src/pace.h"

#include <avr/io.h>

#include "../src/outputs.h"

void pace_begin(void)
{
    OCR0A = fixed_u8(PACE_TOP);
    TCCR0A = fixed_u8((1 << CTC0) | PACE_CLOCK_SELECT);
}

void pace_rest(void)
{
    period_t left = fixed_period(PERIOD_TICKS);

    do {
        while ((TIFR0 & (1 << OCF0A)) == 0) {
        }
        TIFR0 = (1 << OCF0A);
        outputs_step();
    } while (--left != 0);
}
