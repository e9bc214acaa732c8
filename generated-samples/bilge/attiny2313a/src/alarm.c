/* SPDX-License-Identifier: 0BSD */
/*
 * The alarm's state.
 *
 * bilge watch, for ATtiny2313A. Written by ullage from a loop file: to change
 * a number, change it there and emit again.
 */
#include "alarm.h"

#include "outputs.h"

bool alarm_on;
bool alarm_muted;
uint8_t alarm_faults;
uint8_t alarm_run;

void alarm_set(bool on)
{
    alarm_run = 0;
    /* Once on, it stays on until somebody has pressed the button. */
    if (!on && !alarm_muted) {
        return;
    }
    alarm_on = on;
    alarm_muted = false;
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
