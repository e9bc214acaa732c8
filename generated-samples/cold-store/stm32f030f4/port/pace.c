/* SPDX-License-Identifier: 0BSD */
/*
 * Counts time with the core's own timer.
 *
 * cold-store guard, for STM32F030F4. Written by ullage from a loop file: to change
 * a number, change it there and emit again.
 */
#include "../src/pace.h"

#include "../src/outputs.h"

/* System timer: Armv6-M and Armv7-M Architecture Reference Manuals, B3.3. */
#define TICK_CONTROL (*(volatile uint32_t *)0xE000E010u)
#define TICK_RELOAD (*(volatile uint32_t *)0xE000E014u)
#define TICK_COUNT (*(volatile uint32_t *)0xE000E018u)
#define TICK_INTERRUPT 2u
#define TICK_PASSED 0x10000u

void pace_begin(void)
{
    TICK_RELOAD = fixed_u32(PACE_TOP);
    TICK_COUNT = 0;
    TICK_CONTROL = fixed_u8(PACE_CLOCK_SELECT);
}

void pace_rest(void)
{
    period_t left = fixed_period(PERIOD_TICKS);

    do {
        while ((TICK_CONTROL & TICK_PASSED) == 0) {
        }
        outputs_step();
    } while (--left != 0);
}
