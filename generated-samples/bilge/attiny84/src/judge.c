/* SPDX-License-Identifier: 0BSD */
/*
 * Compares the average with the limits.
 *
 * bilge watch, for ATtiny84. Written by ullage from a loop file: to change
 * a number, change it there and emit again.
 */
#include "alarm.h"

void alarm_judge(sum_t sum)
{
    sum_t low = alarm_on ? fixed_sum(ALARM_CLEAR_LOW) : fixed_sum(ALARM_TRIP_LOW);
    sum_t high = alarm_on ? fixed_sum(ALARM_CLEAR_HIGH) : fixed_sum(ALARM_TRIP_HIGH);
    bool past = sum < low || sum > high;

    if (past == alarm_on) {
        alarm_run = 0;
    } else if (++alarm_run >=
               (alarm_on ? fixed_u8(ALARM_CLEAR_AFTER) : fixed_u8(ALARM_TRIP_AFTER))) {
        alarm_set(past);
    }
}
