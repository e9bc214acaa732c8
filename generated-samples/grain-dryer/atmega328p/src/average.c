/* SPDX-License-Identifier: 0BSD */
/*
 * The average over successive readings, as a sum: nothing is divided.
 *
 * grain-dryer bed, for ATmega328P. Written by ullage from a loop file: to change
 * a number, change it there and emit again.
 */
#include "average.h"

sum_t average_sum;
static uint8_t average_left;

bool average_add(value_t value)
{
    if (average_left == 0) {
        average_left = fixed_u8(AVERAGE_READINGS);
        average_sum = 0;
    }
    average_sum = (sum_t)(average_sum + (sum_t)value);
    return --average_left == 0;
}
