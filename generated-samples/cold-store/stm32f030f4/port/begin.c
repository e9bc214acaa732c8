/* SPDX-License-Identifier: 0BSD */
/*
 * Makes the part ready: clock, watchdog, pins.
 *
 * cold-store guard, for STM32F030F4. Written by ullage from a loop file: to change
 * a number, change it there and emit again.
 */
#include "port.h"

#include "registers.h"

void port_begin(void)
{
    RCC_PORTS = fixed_u32(RCC_PORTS_ON);
    pin_become(fixed_u8(PIN_LAMP), PIN_DRIVEN);
    pin_become(fixed_u8(PIN_SOUNDER), PIN_DRIVEN);
}
