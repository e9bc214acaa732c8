/* SPDX-License-Identifier: 0BSD */
/*
 * Pins and peripherals, as the portable part sees them.
 *
 * cold-store guard, for ATtiny85. Written by ullage from a loop file: to change
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

/* The lamp, on PB3. */
static inline void port_lamp(bool on)
{
    if (on) {
        PORTB |= PORT_BIT(3);
    } else {
        PORTB &= (uint8_t)~PORT_BIT(3);
    }
}

static inline void port_lamp_toggle(void)
{
    /* Writing a one to an input register toggles the output. */
    PINB = PORT_BIT(3);
}

/* The sounder, on PB0, which timer0 toggles at 2702.7 Hz. */
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

/* The knob's voltage on PB4: 0 to 1023 for ground to supply. */
uint16_t port_knob(void);

#endif
