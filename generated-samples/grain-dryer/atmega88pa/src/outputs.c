/* SPDX-License-Identifier: 0BSD */
/*
 * What the alarm drives.
 *
 * grain-dryer bed, for ATmega88PA. Written by ullage from a loop file: to change
 * a number, change it there and emit again.
 */
#include "outputs.h"

#include "../port/port.h"
#include "alarm.h"

static uint8_t lamp_left;

void outputs_show(bool on)
{
    lamp_left = fixed_u8(LAMP_TICKS);
    port_lamp(on);
    port_relay(on);
}

void outputs_step(void)
{
    if (!alarm_on) {
        return;
    }
    if (--lamp_left == 0) {
        lamp_left = fixed_u8(LAMP_TICKS);
        port_lamp_toggle();
    }
}
