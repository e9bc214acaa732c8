/* SPDX-License-Identifier: 0BSD */
/*
 * The average over successive readings, as a sum: nothing is divided.
 *
 * grain-dryer bed, for ATmega328P. Written by ullage from a loop file: to change
 * a number, change it there and emit again.
 */
#ifndef AVERAGE_H
#define AVERAGE_H

#include "config.h"

/* The sum of the last whole block of AVERAGE_READINGS values. */
extern sum_t average_sum;

/* Takes one value in. True when it completes a block. */
bool average_add(value_t value);

#endif
