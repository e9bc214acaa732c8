/* SPDX-License-Identifier: 0BSD */
/*
 * Compares the average with the limits.
 *
 * cold-store guard, for CH32V003F4P6. Written by ullage from a loop file: to change
 * a number, change it there and emit again.
 */
#include "alarm.h"
#include "knob.h"

void alarm_judge(sum_t sum)
{
    sum_t limit = knob_limit();
    bool past;

    if (alarm_on) {
        limit = (sum_t)(limit - fixed_sum(ALARM_HYSTERESIS));
    }
    past = sum > limit;

    if (past == alarm_on) {
        alarm_run = 0;
    } else if (++alarm_run >=
               (alarm_on ? fixed_u8(ALARM_CLEAR_AFTER) : fixed_u8(ALARM_TRIP_AFTER))) {
        alarm_set(past);
    }
}
