/* SPDX-License-Identifier: 0BSD */
/*
 * What the loop file says, in its own units.
 *
 * bilge watch, for ATmega328P. Written by ullage from a loop file: to change
 * a number, change it there and emit again.
 */
#ifndef LOOP_H
#define LOOP_H

/*
 * The checks compute with these numbers and never with those of config.h: what
 * was folded when the firmware was written is computed here once more, the
 * plain way.
 */

#define REDUCE_MEAN 0
#define REDUCE_MAX 1
#define REDUCE_MIN 2
#define REDUCE_SHARE_ABOVE 3
#define OVER_NONE 4
#define OVER_BLOCK 5
#define OVER_MOVING 6
#define OVER_EXPONENTIAL 7
#define OVER_MEDIAN 8
#define WHEN_ABOVE 9
#define WHEN_BELOW 10
#define WHEN_OUTSIDE 11
#define FAULT_ALARM 12
#define FAULT_HOLD 13
#define FAULT_QUIET 14
#define CHECK_NONE 15
#define CHECK_OF_SAMPLE 16
#define CHECK_OF_FRAME 17
#define REPORT_NONE 18
#define REPORT_AVERAGE 19
#define REPORT_FRAME 20

#define LOOP_ADDRESS 77
#define LOOP_ASK_BYTES 0
#define LOOP_ASK {0}
#define LOOP_RESTART 1
#define LOOP_WAIT_MS 0
#define LOOP_FROZEN_AFTER 0
#define LOOP_GAIN 0.1
#define LOOP_OFFSET 0.0
#define LOOP_SKIP_BYTES 0
#define LOOP_SAMPLES 1
#define LOOP_SAMPLE_BYTES 2
#define LOOP_BIG_ENDIAN 1
#define LOOP_SHIFT 4
#define LOOP_RAW_BITS 12
#define LOOP_RAW_MIN 0.0
#define LOOP_RAW_MAX 4095.0
#define LOOP_CHECK CHECK_NONE
#define LOOP_CHECK_POLY 0
#define LOOP_CHECK_INIT 0
#define LOOP_PERIOD_MS 500
#define LOOP_TICK_MS 50.0
#define LOOP_REDUCE REDUCE_MEAN
#define LOOP_LEVEL 0.0
#define LOOP_OVER_TIME OVER_MEDIAN
#define LOOP_READINGS 5
#define LOOP_SUMS 0
#define LOOP_SHIFTS 0
#define LOOP_WHEN WHEN_OUTSIDE
#define LOOP_LOW 12.0
#define LOOP_HIGH 180.0
#define LOOP_KNOB 0
#define LOOP_KNOB_FROM 0.0
#define LOOP_KNOB_TO 1.0
#define LOOP_HYSTERESIS 4.0
#define LOOP_TRIP_AFTER 6
#define LOOP_CLEAR_AFTER 20
#define LOOP_LATCH 1
#define LOOP_ON_FAULT FAULT_ALARM
#define LOOP_FAULTS_ALLOWED 5
#define LOOP_LAMP 1
#define LOOP_LAMP_BLINK_MS 0
#define LOOP_SOUNDER 1
#define LOOP_SOUNDER_ON_MS 150
#define LOOP_SOUNDER_OFF_MS 850
#define LOOP_RELAY 0
#define LOOP_MUTE 1
#define LOOP_SETTINGS 0
#define LOOP_REPORT REPORT_AVERAGE
#define LOOP_STEPS 1

#endif
