/* SPDX-License-Identifier: 0BSD */
/*
 * Reads the knob.
 *
 * cold-store guard, for ATtiny85. Written by ullage from a loop file: to change
 * a number, change it there and emit again.
 */
#include "port.h"

uint16_t port_knob(void)
{
    ADMUX = fixed_u8(KNOB_CHANNEL);
    ADCSRA = fixed_u8((1 << ADEN) | (1 << ADSC) | KNOB_PRESCALE);
    /* A conversion takes 25 clocks of the converter and always ends. */
    while ((ADCSRA & (1 << ADSC)) != 0) {
    }
    return ADCW;
}
