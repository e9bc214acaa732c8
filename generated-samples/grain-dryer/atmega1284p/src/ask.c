/* SPDX-License-Identifier: 0BSD */
/*
 * Asks the sensor for a frame.
 *
 * grain-dryer bed, for ATmega1284P. Written by ullage from a loop file: to change
 * a number, change it there and emit again.
 */
#include "../bus/bus.h"
#include "reading.h"

void reading_ask(void)
{
    bus_begin();
    bus_put(fixed_u8(SENSOR_ASK_0));
    bus_fetch(fixed_u8(FRAME_BYTES));
}
