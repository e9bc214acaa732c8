/* SPDX-License-Identifier: 0BSD */
/*
 * The average over successive readings, as a sum: nothing is divided.
 *
 * cold-store guard, for STM32F030F4. Written by ullage from a loop file: to change
 * a number, change it there and emit again.
 */
#ifndef AVERAGE_H
#define AVERAGE_H

#include "config.h"

/*
 * Takes one value in and gives the average, in counts of sum_t. The first value
 * stands for all that were before it.
 */
sum_t average_add(value_t value);

#endif
