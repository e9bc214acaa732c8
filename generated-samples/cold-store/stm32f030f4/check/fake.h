/* SPDX-License-Identifier: 0BSD */
/*
 * Stands in for the port and for your hooks, so that the firmware runs here.
 *
 * cold-store guard, for STM32F030F4. Written by ullage from a loop file: to change
 * a number, change it there and emit again.
 */
#ifndef FAKE_H
#define FAKE_H

/*
 * The compiler reads this file before all others (-include). With their guards
 * taken, port/port.h and yours/hooks.h come out empty.
 */
#define PORT_H
#define HOOKS_H

#include "../src/config.h"

#define YOURS_BEGIN() ((void)0)
#define YOURS_EACH_READING(alarm) fake_reading_done(alarm)

void fake_reading_done(bool alarm);

void port_begin(void);
void port_lamp(bool on);
void port_lamp_toggle(void);
void port_relay(bool on);
void port_sounder(bool on);
bool port_mute_pressed(void);
uint16_t port_knob(void);
void port_serial_begin(void);
void port_serial_send(uint8_t character);

/* The firmware's main, renamed; it returns only by a jump out of it. */
int firmware_main(void);

#endif
