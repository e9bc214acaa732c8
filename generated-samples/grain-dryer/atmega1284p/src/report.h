/* SPDX-License-Identifier: 0BSD */
/*
 * One text line for each reading, over the serial port.
 *
 * grain-dryer bed, for ATmega1284P. Written by ullage from a loop file: to change
 * a number, change it there and emit again.
 */
#ifndef REPORT_H
#define REPORT_H

#include "config.h"

/* Sends the samples of the last frame in their unit, with commas between them. */
void report_line(void);

/* Sends a line for a reading that failed. */
void report_fault(void);

#endif
