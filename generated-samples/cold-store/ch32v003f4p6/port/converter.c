/* SPDX-License-Identifier: 0BSD */
/*
 * Reads the knob.
 *
 * cold-store guard, for CH32V003F4P6. Written by ullage from a loop file: to change
 * a number, change it there and emit again.
 */
#include "port.h"
#include "registers.h"

uint16_t port_knob(void)
{
    uint32_t patience = fixed_u32(0x10000);

    CLOCKS_APB2 |= CLOCK_CONVERTER;
    CLOCK_CONFIG = (CLOCK_CONFIG & ~0xC000u) | fixed_u32(KNOB_PRESCALE);
    pin_mode(fixed_u8(PIN_KNOB), PIN_ANALOG);
    CONVERTER_CONTROL = CONVERTER_ON | CONVERTER_BY_PROGRAM;
    /* The longest sampling time, for a knob of 10 kilohm and more. */
    CONVERTER_SAMPLING = 0x3FFFFFFFu;
    CONVERTER_SEQUENCE = fixed_u8(KNOB_CHANNEL);
    CONVERTER_CONTROL = CONVERTER_ON | CONVERTER_BY_PROGRAM | CONVERTER_START;
    /* A conversion takes 252 clocks of the converter at most; one that does not end reads as 0. */
    while ((CONVERTER_STATUS & CONVERTER_DONE) == 0 && --patience != 0) {
    }
    return (uint16_t)(CONVERTER_RESULT);
}
