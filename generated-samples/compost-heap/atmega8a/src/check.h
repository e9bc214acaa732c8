/* SPDX-License-Identifier: 0BSD */
/*
 * The check byte (CRC-8, most significant bit first).
 *
 * compost-heap watering, for ATmega8A. Written by ullage from a loop file: to change
 * a number, change it there and emit again.
 */
#ifndef CHECK_H
#define CHECK_H

#include "config.h"

/* The check value of the bytes so far; set to CHECK_INIT where a check begins. */
extern uint8_t check_value;

/* A byte from the bus, taken into the check value. */
uint8_t check_get(uint8_t acknowledge);

/*
 * Sets `bus_fault` unless the check value is zero, as it is once the check byte
 * itself has been taken in.
 */
void check_end(void);

#endif
