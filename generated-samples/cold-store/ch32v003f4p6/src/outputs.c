/* SPDX-License-Identifier: 0BSD */
/*
 * What the alarm drives.
 *
 * cold-store guard, for CH32V003F4P6. Written by ullage from a loop file: to change
 * a number, change it there and emit again.
 */
#include "outputs.h"

#include "../port/port.h"
#include "alarm.h"

static uint8_t lamp_left;
static uint8_t sounder_left;
static bool sounding;

static void sound(bool on)
{
    sounding = on;
    sounder_left = on ? fixed_u8(SOUNDER_ON_TICKS) : fixed_u8(SOUNDER_OFF_TICKS);
    port_sounder(on);
}

void outputs_show(bool on)
{
    lamp_left = fixed_u8(LAMP_TICKS);
    port_lamp(on);
    sound(on);
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
    if (--sounder_left == 0) {
        sound(!sounding);
    }
}
