/* SPDX-License-Identifier: 0BSD */
/*
 * Pins and peripherals, as the portable part sees them.
 *
 * grain-dryer bed, for ATmega88PA. Written by ullage from a loop file: to change
 * a number, change it there and emit again.
 */
#ifndef PORT_H
#define PORT_H

#include <avr/io.h>

#include "../src/config.h"

/*
 * The seam between the portable part and the part at hand. What is one or two
 * instructions is inline here; the rest is in the files beside this one. To
 * move to another part, write these functions again.
 */

#define PORT_BIT(number) ((uint8_t)(1u << (number)))

/* Makes the pins ready: outputs driven and off, inputs with what pull-up they need. */
void port_begin(void);

/* The lamp, on PB0. */
static inline void port_lamp(bool on)
{
    if (on) {
        PORTB |= PORT_BIT(0);
    } else {
        PORTB &= (uint8_t)~PORT_BIT(0);
    }
}

static inline void port_lamp_toggle(void)
{
    /* Writing a one to an input register toggles the output. */
    PINB = PORT_BIT(0);
}

/* The relay's driver, on PB2. */
static inline void port_relay(bool on)
{
    if (on) {
        PORTB &= (uint8_t)~PORT_BIT(2);
    } else {
        PORTB |= PORT_BIT(2);
    }
}

/* Makes the sender ready: 38400 baud, eight bits, no parity, one stop bit. */
void port_serial_begin(void);

/* Sends one character on PD1; waits while the one before it is still being sent. */
void port_serial_send(uint8_t character);

#endif
