/* SPDX-License-Identifier: 0BSD */
/*
 * One frame from the sensor, reduced to one value.
 *
 * cold-store guard, for STM32F030F4. Written by ullage from a loop file: to change
 * a number, change it there and emit again.
 */
#ifndef READING_H
#define READING_H

#include "config.h"

/* Asks the sensor for a frame, up to its first byte that counts. */
void reading_ask(void);

/*
 * The next sample of the frame. `last` goes to the bus with the last byte:
 * BUS_LAST for the last sample, BUS_MORE for all others.
 */
raw_t reading_sample(uint8_t last);

/*
 * One frame, reduced to one value. Where `bus_fault` is set afterwards, the
 * value means nothing. Blocks for the length of the transaction, and longer
 * only as far as the patience of the bus driver goes.
 */
value_t reading_take(void);

#endif
