/* SPDX-License-Identifier: 0BSD */
/*
 * Sends characters.
 *
 * bilge watch, for ATmega328P. Written by ullage from a loop file: to change
 * a number, change it there and emit again.
 */
#include "port.h"

void port_serial_begin(void)
{
    UBRR0H = fixed_u8((uint8_t)(SERIAL_DIVIDER >> 8));
    UBRR0L = fixed_u8((uint8_t)SERIAL_DIVIDER);
    UCSR0A = fixed_u8(1 << U2X0);
    UCSR0B = fixed_u8(1 << TXEN0);
}

void port_serial_send(uint8_t character)
{
    /* The sender takes the next character after ten bits at most. */
    while ((UCSR0A & (1 << UDRE0)) == 0) {
    }
    UDR0 = character;
}
