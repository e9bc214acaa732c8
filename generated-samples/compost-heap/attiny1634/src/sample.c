/* SPDX-License-Identifier: 0BSD */
/*
 * Assembles one sample from its bytes.
 *
 * compost-heap watering, for ATtiny1634. Written by ullage from a loop file: to change
 * a number, change it there and emit again.
 */
#include "../bus/bus.h"
#include "check.h"
#include "reading.h"

raw_t reading_sample(uint8_t last)
{
    uint16_t word;

    check_value = fixed_u8(CHECK_INIT);
    word = check_get(BUS_MORE);
    word = (uint16_t)((uint16_t)(word << 8) | check_get(BUS_MORE));
    (void)check_get(last);
    check_end();
    return (raw_t)word;
}
