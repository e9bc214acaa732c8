/* SPDX-License-Identifier: 0BSD */
/*
 * Asks the sensor for a frame.
 *
 * compost-heap watering, for ATtiny1634. Written by ullage from a loop file: to change
 * a number, change it there and emit again.
 */
#include "../bus/bus.h"
#include "pace.h"
#include "reading.h"

void reading_ask(void)
{
    uint8_t ticks = fixed_u8(SENSOR_WAIT_TICKS);
    uint8_t skip = fixed_u8(FRAME_SKIP);

    bus_begin();
    bus_start(fixed_u8(BUS_TO(SENSOR_ADDRESS)));
    bus_put(fixed_u8(SENSOR_ASK_0));
    bus_put(fixed_u8(SENSOR_ASK_1));
    bus_stop();
    do {
        pace_tick();
    } while (--ticks != 0);
    bus_start(fixed_u8(BUS_FROM(SENSOR_ADDRESS)));
    do {
        (void)bus_get(BUS_MORE);
    } while (--skip != 0);
}
