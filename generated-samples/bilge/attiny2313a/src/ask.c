/* SPDX-License-Identifier: 0BSD */
/*
 * Asks the sensor for a frame.
 *
 * bilge watch, for ATtiny2313A. Written by ullage from a loop file: to change
 * a number, change it there and emit again.
 */
#include "../bus/bus.h"
#include "reading.h"

void reading_ask(void)
{
    bus_begin();
    bus_start(fixed_u8(BUS_FROM(SENSOR_ADDRESS)));
}
