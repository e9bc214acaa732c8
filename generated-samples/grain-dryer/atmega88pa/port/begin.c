/* SPDX-License-Identifier: 0BSD */
/*
 * Makes the part ready: clock, watchdog, pins.
 *
 * grain-dryer bed, for ATmega88PA. Written by ullage from a loop file: to change
 * a number, change it there and emit again.
 */
#include "port.h"

void port_begin(void)
{
    CLKPR = fixed_u8(1 << CLKPCE);
    CLKPR = fixed_u8(CLOCK_SETTING);
    DDRB |= PORT_BIT(0);
    PORTB |= PORT_BIT(2);
    DDRB |= PORT_BIT(2);
}
