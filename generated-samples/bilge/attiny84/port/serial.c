/* SPDX-License-Identifier: 0BSD */
/*
 * Sends characters.
 *
 * bilge watch, for ATtiny84. Written by ullage from a loop file: to change
 * a number, change it there and emit again.
 */
#include "port.h"

#include <avr/interrupt.h>

void port_serial_begin(void)
{
    /* The line rests high. */
    PORTA |= PORT_BIT(2);
    DDRA |= PORT_BIT(2);
}

/*
 * A start bit, eight data bits, the lowest first, and a stop bit. Both ways
 * through the loop take the same time: 9 clocks, and 3 for each turn of the delay.
 */
void port_serial_send(uint8_t character)
{
    uint8_t bits = 10;
    uint8_t turns;
    uint8_t inverted = (uint8_t)~character;

    cli();
    __asm__ volatile(
        "sec\n"
        "1: brcc 2f\n\t"
        "cbi %[port], %[bit]\n\t"
        "rjmp 3f\n"
        "2: sbi %[port], %[bit]\n\t"
        "nop\n"
        "3: mov %[turns], %[loops]\n"
        "4: dec %[turns]\n\t"
        "brne 4b\n\t"
        "lsr %[inverted]\n\t"
        "dec %[bits]\n\t"
        "brne 1b"
        : [bits] "+d"(bits), [turns] "=&r"(turns), [inverted] "+r"(inverted)
        : [port] "I"(_SFR_IO_ADDR(PORTA)), [bit] "I"(2),
          [loops] "r"(fixed_u8(SERIAL_BIT_LOOPS))
        : "cc");
    sei();
}
