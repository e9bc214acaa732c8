/* SPDX-License-Identifier: 0BSD */
/*
 * Makes the part ready: clock, watchdog, pins.
 *
 * compost-heap watering, for ATmega8A. Written by ullage from a loop file: to change
 * a number, change it there and emit again.
 */
#include "port.h"

#include <avr/wdt.h>

void port_begin(void)
{
    wdt_enable(WATCHDOG_TIMEOUT);
    DDRB |= PORT_BIT(0);
}
