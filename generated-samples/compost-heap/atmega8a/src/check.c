/* SPDX-License-Identifier: 0BSD */
/*
 * The check byte (CRC-8, most significant bit first).
 *
 * compost-heap watering, for ATmega8A. Written by ullage from a loop file: to change
 * a number, change it there and emit again.
 */
#include "check.h"

#include "../bus/bus.h"

uint8_t check_value;

uint8_t check_get(uint8_t acknowledge)
{
    uint8_t byte = bus_get(acknowledge);
    uint8_t value = check_value ^ byte;
    uint8_t bits = 8;

    do {
        bool carry = (value & 0x80) != 0;

        value = (uint8_t)(value << 1);
        if (carry) {
            value ^= fixed_u8(CHECK_POLY);
        }
    } while (--bits != 0);
    check_value = value;
    return byte;
}

void check_end(void)
{
    if (check_value != 0) {
        bus_fault = true;
    }
}
