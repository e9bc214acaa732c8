/* SPDX-License-Identifier: 0BSD */
/*
 * Counts time with timer1.
 *
 * grain-dryer bed, for ATmega328P. Written by ullage from a loop file: to change
 * a number, change it there and emit again.
 */
#include "../src/pace.h"

#include <avr/io.h>

#include "../src/outputs.h"

static period_t pace_left;

void pace_begin(void)
{
    OCR1A = fixed_u16(PACE_TOP);
    TCCR1B = fixed_u8((1 << WGM12) | PACE_CLOCK_SELECT);
    pace_left = fixed_period(PERIOD_TICKS);
}

static void pace_step(void)
{
    TIFR1 = (1 << OCF1A);
    outputs_step();
    if (pace_left != 0) {
        --pace_left;
    }
}

void pace_tick(void)
{
    while ((TIFR1 & (1 << OCF1A)) == 0) {
    }
    pace_step();
}

void pace_poll(void)
{
    if ((TIFR1 & (1 << OCF1A)) != 0) {
        pace_step();
    }
}

void pace_rest(void)
{
    while (pace_left != 0) {
        pace_tick();
    }
    pace_left = fixed_period(PERIOD_TICKS);
}
