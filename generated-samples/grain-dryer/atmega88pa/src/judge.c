/* SPDX-License-Identifier: 0BSD */
/*
 * Compares the average with the limits.
 *
 * grain-dryer bed, for ATmega88PA. Written by ullage from a loop file: to change
 * a number, change it there and emit again.
 */
#include "alarm.h"

void alarm_judge(sum_t sum)
{
    sum_t limit = alarm_on ? fixed_sum(ALARM_CLEAR) : fixed_sum(ALARM_TRIP);
    bool past = sum > limit;

    if (past != alarm_on) {
        alarm_set(past);
    }
}
