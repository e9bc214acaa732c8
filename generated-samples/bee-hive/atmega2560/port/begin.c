/* SPDX-License-Identifier: 0BSD */
/*
 * Makes the part ready: clock, watchdog, pins.
 *
 * bee-hive watch, for ATmega2560. Written by ullage from a loop file: to change
 * a number, change it there and emit again.
 */
#include "port.h"

void port_begin(void)
{
    DDRA |= PORT_BIT(0);
    DDRB |= PORT_BIT(7);
}
