/* SPDX-License-Identifier: 0BSD */
/*
 * Sends characters.
 *
 * bilge watch, for ATtiny2313A. Written by ullage from a loop file: to change
 * a number, change it there and emit again.
 */
#include "port.h"

void port_serial_begin(void)
{
    UBRRH = fixed_u8((uint8_t)(SERIAL_DIVIDER >> 8));
    UBRRL = fixed_u8((uint8_t)SERIAL_DIVIDER);
    UCSRA = fixed_u8(1 << U2X);
    UCSRB = fixed_u8(1 << TXEN);
}

void port_serial_send(uint8_t character)
{
    /* The sender takes the next character after ten bits at most. */
    while ((UCSRA & (1 << UDRE)) == 0) {
    }
    UDR = character;
}
