/* SPDX-License-Identifier: 0BSD */
/*
 * Reads, averages, judges, and rests for what is left of the period.
 *
 * cold-store guard, for STM32F030F4. Written by ullage from a loop file: to change
 * a number, change it there and emit again.
 */
#include "../bus/bus.h"
#include "../port/port.h"
#include "../yours/hooks.h"
#include "alarm.h"
#include "average.h"
#include "pace.h"
#include "reading.h"

int main(void)
{
    port_begin();
    pace_begin();
    YOURS_BEGIN();

    for (;;) {
        value_t value = reading_take();

        if (bus_fault) {
            alarm_fault();
        } else {
            sum_t sum = average_add(value);

            alarm_faults = 0;
            alarm_judge(sum);
        }
        YOURS_EACH_READING(alarm_on);
        pace_rest();
    }
}
