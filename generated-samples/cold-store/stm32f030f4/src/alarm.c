/* SPDX-License-Identifier: 0BSD */
/*
 * The alarm's state.
 *
 * cold-store guard, for STM32F030F4. Written by ullage from a loop file: to change
 * a number, change it there and emit again.
 */
#include "alarm.h"

#include "outputs.h"

bool alarm_on;
uint8_t alarm_faults;
uint8_t alarm_run;

void alarm_set(bool on)
{
    alarm_run = 0;
    alarm_on = on;
    outputs_show(on);
}

void alarm_fault(void)
{
    if (alarm_faults < fixed_compare(ALARM_FAULTS_ALLOWED)) {
        ++alarm_faults;
        return;
    }
    if (!alarm_on) {
        alarm_set(true);
    }
}
