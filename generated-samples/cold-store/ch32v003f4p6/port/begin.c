/* SPDX-License-Identifier: 0BSD */
/*
 * Makes the part ready: clock, watchdog, pins.
 *
 * cold-store guard, for CH32V003F4P6. Written by ullage from a loop file: to change
 * a number, change it there and emit again.
 */
#include "port.h"
#include "registers.h"

void port_begin(void)
{
    CLOCKS_APB2 = CLOCK_PORTS;
    REMAP = fixed_u32(REMAP_WORD);
    pin_become(fixed_u8(PIN_LAMP), PIN_DRIVEN);
    pin_become(fixed_u8(PIN_SOUNDER), PIN_DRIVEN);
}
