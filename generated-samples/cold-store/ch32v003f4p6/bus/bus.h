/* SPDX-License-Identifier: 0BSD */
/*
 * The two-wire bus, as its controller.
 *
 * cold-store guard, for CH32V003F4P6. Written by ullage from a loop file: to change
 * a number, change it there and emit again.
 */
#ifndef BUS_H
#define BUS_H

#include "../src/config.h"

/*
 * A transaction is a chain of calls. Any step that fails sets `bus_fault`; from
 * then on every step returns at once, but for the one that frees the bus, so
 * that nobody has to look before the end.
 */

/* An address byte: bit 0 says who sends next (I2C-bus specification UM10204, 3.1.10). */
#define BUS_TO(address) ((uint8_t)((address) << 1))
#define BUS_FROM(address) ((uint8_t)((address) << 1 | 1))

/* What is answered to a byte from the sensor: one more, or that was the last. */
#define BUS_MORE 0x00
#define BUS_LAST 0x80

extern bool bus_fault;

/* Clears `bus_fault`, and frees a bus that a sensor holds: nine clocks, then STOP (3.1.16). */
void bus_begin(void);

/* START, or a repeated START, and an address byte. */
void bus_start(uint8_t address);

/* Sends a byte; one that is not acknowledged is a fault. */
void bus_put(uint8_t byte);

/* Receives a byte and answers with BUS_MORE or BUS_LAST. */
uint8_t bus_get(uint8_t acknowledge);

/* STOP. */
void bus_stop(void);

#endif
