/* SPDX-License-Identifier: 0BSD */
/*
 * What the firmware should do, computed the plain way.
 *
 * cold-store guard, for CH32V003F4P6. Written by ullage from a loop file: to change
 * a number, change it there and emit again.
 */
#ifndef EXPECTED_H
#define EXPECTED_H

#include <stdbool.h>
#include <stdint.h>

/* A good frame came in. False if the value has been the same for too long: then it has failed. */
bool expect_frame(const int64_t *raw);

/* A reading failed. */
void expect_fault(void);

/* False if the alarm cannot be so now. */
bool expect_alarm(bool alarm);

/* Whether the last reading completed an average, and what that is, in the unit. */
bool expect_is_judged(void);
double expect_average(void);

/* The value of a sample in the unit, and back to the nearest count that the sensor can send. */
double unit_of(double raw);
int64_t raw_of(double unit);

/* The limit that counts while the alarm is off: the lower and the upper one. */
double expect_low(void);
double expect_high(void);

#endif
