/* SPDX-License-Identifier: 0BSD */
/*
 * Takes one frame and reduces it while the bytes come in.
 *
 * cold-store guard, for STM32F030F4. Written by ullage from a loop file: to change
 * a number, change it there and emit again.
 */
#include "../bus/bus.h"
#include "reading.h"

value_t reading_take(void)
{
    raw_t raw;
    value_t value;

    reading_ask();
    raw = reading_sample(BUS_LAST);
    value = (value_t)raw;
    bus_stop();
    return value;
}
