/* SPDX-License-Identifier: 0BSD */
/*
 * One text line for each reading, over the serial port.
 *
 * bilge watch, for ATtiny84. Written by ullage from a loop file: to change
 * a number, change it there and emit again.
 */
#ifndef REPORT_H
#define REPORT_H

#include "config.h"

/* Sends the average in its unit, a comma, and 1 while the alarm is on, else 0. */
void report_line(sum_t sum);

/* Sends a line for a reading that failed. */
void report_fault(void);

#endif
