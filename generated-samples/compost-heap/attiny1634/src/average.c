/* SPDX-License-Identifier: 0BSD */
/*
 * The average over successive readings, as a sum: nothing is divided.
 *
 * compost-heap watering, for ATtiny1634. Written by ullage from a loop file: to change
 * a number, change it there and emit again.
 */
#include "average.h"

static sum_t average_level;
static bool average_primed;

sum_t average_add(value_t value)
{
    uint8_t times = fixed_u8(AVERAGE_READINGS);

    if (average_primed) {
        average_level = (sum_t)(average_level -
            ((sum_t)(average_level + (sum_t)fixed_u8(AVERAGE_HALF)) >> fixed_u8(AVERAGE_SHIFT)));
        times = 1;
    }
    average_primed = true;
    do {
        average_level = (sum_t)(average_level + (sum_t)value);
    } while (--times != 0);
    return average_level;
}
