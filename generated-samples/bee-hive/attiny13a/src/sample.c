/* SPDX-License-Identifier: 0BSD */
/*
 * Assembles one sample from its bytes.
 *
 * bee-hive watch, for ATtiny13A. Written by ullage from a loop file: to change
 * a number, change it there and emit again.
 */
#include "../bus/bus.h"
#include "reading.h"

raw_t reading_sample(uint8_t last)
{
    uint16_t word;

    word = bus_get(BUS_MORE);
    word |= (uint16_t)((uint16_t)bus_get(last) << 8);
    /* Carries the sign bit on to the width of the type. */
    return (raw_t)(uint16_t)((((uint16_t)word & fixed_mask(SAMPLE_MASK)) ^ fixed_mask(SAMPLE_SIGN)) - fixed_mask(SAMPLE_SIGN));
}
