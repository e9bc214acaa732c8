/* SPDX-License-Identifier: 0BSD */
/*
 * Keeps the period, from the start of one reading to the start of the next.
 *
 * cold-store guard, for CH32V003F4P6. Written by ullage from a loop file: to change
 * a number, change it there and emit again.
 */
#ifndef PACE_H
#define PACE_H

#include "config.h"

/* Starts the timer. */
void pace_begin(void);

/* Waits until the period is over. */
void pace_rest(void);

#endif
