/* SPDX-License-Identifier: 0BSD */
/*
 * Takes one frame and reduces it while the bytes come in.
 *
 * bee-hive watch, for ATtiny88. Written by ullage from a loop file: to change
 * a number, change it there and emit again.
 */
#include "../bus/bus.h"
#include "reading.h"

value_t reading_take(void)
{
    value_t value = 0;
    uint8_t left = fixed_u8(FRAME_SAMPLES);

    reading_ask();
    do {
        raw_t raw = reading_sample(left == 1 ? BUS_LAST : BUS_MORE);

        value = (value_t)(value + (value_t)raw);
    } while (--left != 0);
    bus_stop();
    return value;
}
