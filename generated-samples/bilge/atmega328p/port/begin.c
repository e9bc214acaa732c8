/* SPDX-License-Identifier: 0BSD */
/*
 * Makes the part ready: clock, watchdog, pins.
 *
 * bilge watch, for ATmega328P. Written by ullage from a loop file: to change
 * a number, change it there and emit again.
 */
#include "port.h"

void port_begin(void)
{
    DDRB |= PORT_BIT(0);
    DDRD |= PORT_BIT(6);
    PORTB |= PORT_BIT(2);
}
