/* SPDX-License-Identifier: 0BSD */
/*
 * The threshold that is kept while the power is off.
 *
 * compost-heap watering, for ATtiny85. Written by ullage from a loop file: to change
 * a number, change it there and emit again.
 */
#ifndef SETTINGS_H
#define SETTINGS_H

#include "config.h"

/* The limit that trips the alarm, in counts of sum_t. */
extern sum_t settings_trip;

/* Takes the kept threshold if its check byte is right, else ALARM_TRIP. */
void settings_load(void);

/* Changes the threshold and keeps it. Takes some milliseconds for each byte. */
void settings_keep(sum_t trip);

#endif
