/* SPDX-License-Identifier: 0BSD */
/*
 * Makes the part ready: clock, watchdog, pins.
 *
 * compost-heap watering, for ATtiny1634. Written by ullage from a loop file: to change
 * a number, change it there and emit again.
 */
#include "port.h"

#include <avr/wdt.h>

void port_begin(void)
{
    wdt_reset();
    CCP = 0xD8;
    WDTCSR = fixed_u8((1 << WDE) | WATCHDOG_PRESCALE);
    DDRA |= PORT_BIT(2);
}
