/* SPDX-License-Identifier: 0BSD */
/*
 * Reads, averages, judges, and rests for what is left of the period.
 *
 * grain-dryer bed, for ATmega328P. Written by ullage from a loop file: to change
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

int main(void)
{
    port_begin();
    pace_begin();
    port_serial_begin();
    YOURS_BEGIN();

    for (;;) {
        value_t value = reading_take();

        if (bus_fault) {
            alarm_fault();
            report_fault();
        } else {
            alarm_faults = 0;
            if (average_add(value)) {
                alarm_judge(average_sum);
            }
            report_line();
        }
        YOURS_EACH_READING(alarm_on);
        pace_rest();
    }
}
