/* SPDX-License-Identifier: 0BSD */
/*
 * Pins and peripherals, as the portable part sees them.
 *
 * bee-hive watch, for ATtiny88. Written by ullage from a loop file: to change
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

/* The sounder, on PB1, which timer1 toggles at 2702.7 Hz. */
static inline void port_sounder(bool on)
{
    uint8_t mode = fixed_u8(0);

    if (on) {
        TCCR1B = fixed_u8((1 << WGM12) | TONE_CLOCK_SELECT);
        OCR1A = fixed_u16(TONE_TOP);
        mode |= (1 << COM1A0);
    }
    TCCR1A = mode;
}

/* The knob's voltage on PC0: 0 to 1023 for ground to supply. */
uint16_t port_knob(void);

#endif
