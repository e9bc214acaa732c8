/* SPDX-License-Identifier: 0BSD */
/*
 * What the alarm drives.
 *
 * cold-store guard, for STM32F030F4. Written by ullage from a loop file: to change
 * a number, change it there and emit again.
 */
#ifndef OUTPUTS_H
#define OUTPUTS_H

#include "config.h"

/* Switches everything on or off, with its pattern from the start. */
void outputs_show(bool on);

/* Moves blinking and beeping on by one tick. */
void outputs_step(void);

#endif
