/* SPDX-License-Identifier: 0BSD */
/*
 * Counts time with the core's own timer.
 *
 * cold-store guard, for CH32V003F4P6. Written by ullage from a loop file: to change
 * a number, change it there and emit again.
 */
#include "../src/pace.h"

#include "../src/outputs.h"

/* System timer: CH32V003 reference manual, 6.5.4 (STK). */
#define TICK_CONTROL (*(volatile uint32_t *)0xE000F000u)
#define TICK_STATUS (*(volatile uint32_t *)0xE000F004u)
#define TICK_COUNT (*(volatile uint32_t *)0xE000F008u)
#define TICK_RELOAD (*(volatile uint32_t *)0xE000F010u)
#define TICK_INTERRUPT 2u
#define TICK_PASSED 1u

void pace_begin(void)
{
    TICK_COUNT = 0;
    TICK_RELOAD = fixed_u32(PACE_TOP);
    TICK_STATUS = 0;
    TICK_CONTROL = fixed_u8(PACE_CLOCK_SELECT);
}

void pace_rest(void)
{
    period_t left = fixed_period(PERIOD_TICKS);

    do {
        while ((TICK_STATUS & TICK_PASSED) == 0) {
        }
        TICK_STATUS = 0;
        outputs_step();
    } while (--left != 0);
}
