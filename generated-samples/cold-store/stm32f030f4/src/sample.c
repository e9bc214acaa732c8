/* SPDX-License-Identifier: 0BSD */
/*
 * Assembles one sample from its bytes.
 *
 * cold-store guard, for STM32F030F4. Written by ullage from a loop file: to change
 * a number, change it there and emit again.
 */
#include "../bus/bus.h"
#include "reading.h"

raw_t reading_sample(uint8_t last)
{
    uint16_t word;

    word = bus_get(BUS_MORE);
    word = (uint16_t)((uint16_t)(word << 8) | bus_get(last));
    /* A right shift of a negative number keeps its sign on every compiler meant here. */
    return (raw_t)((int16_t)word >> fixed_u8(SAMPLE_SHIFT));
}
