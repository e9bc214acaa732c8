/* SPDX-License-Identifier: 0BSD */
/*
 * Asks the sensor for a frame.
 *
 * cold-store guard, for STM32F030F4. Written by ullage from a loop file: to change
 * a number, change it there and emit again.
 */
#include "../bus/bus.h"
#include "reading.h"

void reading_ask(void)
{
    bus_begin();
    bus_start(fixed_u8(BUS_TO(SENSOR_ADDRESS)));
    bus_put(fixed_u8(SENSOR_ASK_0));
    bus_start(fixed_u8(BUS_FROM(SENSOR_ADDRESS)));
}
