/* SPDX-License-Identifier: 0BSD */
/*
 * Pins and peripherals, as the portable part sees them.
 *
 * cold-store guard, for STM32F030F4. Written by ullage from a loop file: to change
 * a number, change it there and emit again.
 */
#ifndef PORT_H
#define PORT_H

#include "../src/config.h"
#include "pins.h"
#include "tone.h"

/*
 * The seam between the portable part and the part at hand. What is one or two
 * calls is inline here; the rest is in the files beside this one. To move to
 * another part, write these functions again.
 */

/* Makes the part ready: clock, watchdog, pins; outputs driven and off. */
void port_begin(void);

/* The lamp, on PA1. */
static inline void port_lamp(bool on)
{
    pin_drive(fixed_u8(PIN_LAMP), on);
}

static inline void port_lamp_toggle(void)
{
    pin_toggle(fixed_u8(PIN_LAMP));
}

/* The sounder, on PA6, to which TIM3 gives 2700.9 Hz: tone.h. */

/* The knob's voltage on PA0: 0 to 1023 for ground to supply. */
uint16_t port_knob(void);

#endif
