/* SPDX-License-Identifier: 0BSD */
/*
 * Keeps the period, from the start of one reading to the start of the next.
 *
 * compost-heap watering, for ATtiny1634. Written by ullage from a loop file: to change
 * a number, change it there and emit again.
 */
#ifndef PACE_H
#define PACE_H

#include "config.h"

/* Starts the timer. */
void pace_begin(void);

/* Waits until the period is over. */
void pace_rest(void);

/* Waits for the end of a tick, and moves on what moves by ticks. */
void pace_tick(void);

/* The same if a tick has ended, else nothing: for work that takes long. */
void pace_poll(void);

#endif
