/* SPDX-License-Identifier: 0BSD */
/*
 * Pins and peripherals, as the portable part sees them.
 *
 * bilge watch, for ATmega328P. Written by ullage from a loop file: to change
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

/* The sounder, on PD6, which timer0 toggles at 2994.0 Hz. */
static inline void port_sounder(bool on)
{
    uint8_t mode = fixed_u8((1 << WGM01));

    if (on) {
        TCCR0B = fixed_u8(TONE_CLOCK_SELECT);
        OCR0A = fixed_u8(TONE_TOP);
        mode |= (1 << COM0A0);
    }
    TCCR0A = mode;
}

/* The mute button, from PB2 to ground. */
static inline bool port_mute_pressed(void)
{
    return (PINB & PORT_BIT(2)) == 0;
}

/* Makes the sender ready: 9600 baud, eight bits, no parity, one stop bit. */
void port_serial_begin(void);

/* Sends one character on PD1; waits while the one before it is still being sent. */
void port_serial_send(uint8_t character);

#endif
