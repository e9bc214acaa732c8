/* SPDX-License-Identifier: 0BSD */
/*
 * The average over successive readings, as a sum: nothing is divided.
 *
 * cold-store guard, for STM32F030F4. Written by ullage from a loop file: to change
 * a number, change it there and emit again.
 */
#include "average.h"

static value_t average_window[AVERAGE_READINGS];
static uint8_t average_at;
static sum_t average_sum;
static bool average_primed;

sum_t average_add(value_t value)
{
    uint8_t times = average_primed ? 1 : fixed_u8(AVERAGE_READINGS);

    average_primed = true;
    do {
        value_t *oldest = &average_window[average_at];

        average_sum = (sum_t)(average_sum - (sum_t)*oldest + (sum_t)value);
        *oldest = value;
        if (++average_at == fixed_u8(AVERAGE_READINGS)) {
            average_at = 0;
        }
    } while (--times != 0);
    return average_sum;
}
