/* SPDX-License-Identifier: 0BSD */
/*
 * Makes the part ready: clock, watchdog, pins.
 *
 * bilge watch, for ATtiny84. Written by ullage from a loop file: to change
 * a number, change it there and emit again.
 */
#include "port.h"

void port_begin(void)
{
    DDRA |= PORT_BIT(3);
    DDRB |= PORT_BIT(2);
    PORTA |= PORT_BIT(5);
}
