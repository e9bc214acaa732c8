/* SPDX-License-Identifier: 0BSD */
/*
 * The limit that the knob is set to.
 *
 * cold-store guard, for CH32V003F4P6. Written by ullage from a loop file: to change
 * a number, change it there and emit again.
 */
#ifndef KNOB_H
#define KNOB_H

#include "config.h"

/* The limit, in counts of sum_t; the lowest voltage gives KNOB_LOW exactly. */
sum_t knob_limit(void);

#endif
