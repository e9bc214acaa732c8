/* SPDX-License-Identifier: 0BSD */
/*
 * The limit that the knob is set to.
 *
 * cold-store guard, for CH32V003F4P6. Written by ullage from a loop file: to change
 * a number, change it there and emit again.
 */
#include "knob.h"

#include "../port/port.h"

sum_t knob_limit(void)
{
    uint16_t code = port_knob();
    uint16_t scaled = 0;
    uint8_t bits = 10;

    /* code * KNOB_MULTIPLIER / 1024, bit by bit: shorter than a multiplication routine. */
    do {
        if ((code & 1) != 0) {
            scaled += fixed_u16(KNOB_MULTIPLIER);
        }
        scaled >>= 1;
        code >>= 1;
    } while (--bits != 0);
    return (sum_t)(fixed_sum(KNOB_LOW) + (sum_t)scaled);
}
