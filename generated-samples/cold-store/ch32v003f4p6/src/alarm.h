/* SPDX-License-Identifier: 0BSD */
/*
 * Judges the average, and remembers whether the alarm is on.
 *
 * cold-store guard, for CH32V003F4P6. Written by ullage from a loop file: to change
 * a number, change it there and emit again.
 */
#ifndef ALARM_H
#define ALARM_H

#include "config.h"

extern bool alarm_on;

/* Readings in a row that have failed. */
extern uint8_t alarm_faults;

/* Averages in a row that speak against the state of the alarm. */
extern uint8_t alarm_run;

/* Compares an average with the limits and switches the alarm when it is time. */
void alarm_judge(sum_t sum);

/* Switches the alarm. */
void alarm_set(bool on);

/* Called for a reading that failed; acts when too many have. */
void alarm_fault(void);

#endif
