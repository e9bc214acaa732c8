/* SPDX-License-Identifier: 0BSD */
/*
 * Reads, averages, judges, and rests for what is left of the period.
 *
 * compost-heap watering, for ATmega8A. Written by ullage from a loop file: to change
 * a number, change it there and emit again.
 */
#include "../bus/bus.h"
#include "../port/port.h"
#include "../yours/hooks.h"
#include "alarm.h"
#include "average.h"
#include "pace.h"
#include "reading.h"
#include "report.h"
#include "settings.h"

int main(void)
{
    port_begin();
    pace_begin();
    port_serial_begin();
    settings_load();
    YOURS_BEGIN();

    for (;;) {
        value_t value = reading_take();

        if (bus_fault) {
            alarm_fault();
            report_fault();
        } else {
            sum_t sum = average_add(value);

            alarm_faults = 0;
            alarm_judge(sum);
            report_line(sum);
        }
        YOURS_EACH_READING(alarm_on);
        pace_rest();
    }
}
