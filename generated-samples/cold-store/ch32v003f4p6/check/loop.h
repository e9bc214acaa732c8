/* SPDX-License-Identifier: 0BSD */
/*
 * What the loop file says, in its own units.
 *
 * cold-store guard, for CH32V003F4P6. Written by ullage from a loop file: to change
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

#define LOOP_ADDRESS 72
#define LOOP_ASK_BYTES 1
#define LOOP_ASK {0}
#define LOOP_RESTART 1
#define LOOP_WAIT_MS 0
#define LOOP_FROZEN_AFTER 0
#define LOOP_GAIN 0.125
#define LOOP_OFFSET 0.0
#define LOOP_SKIP_BYTES 0
#define LOOP_SAMPLES 1
#define LOOP_SAMPLE_BYTES 2
#define LOOP_BIG_ENDIAN 1
#define LOOP_SHIFT 5
#define LOOP_RAW_BITS 11
#define LOOP_RAW_MIN (-1024.0)
#define LOOP_RAW_MAX 1023.0
#define LOOP_CHECK CHECK_NONE
#define LOOP_CHECK_POLY 0
#define LOOP_CHECK_INIT 0
#define LOOP_PERIOD_MS 1000
#define LOOP_TICK_MS 50.0
#define LOOP_REDUCE REDUCE_MEAN
#define LOOP_LEVEL 0.0
#define LOOP_OVER_TIME OVER_MOVING
#define LOOP_READINGS 8
#define LOOP_SUMS 1
#define LOOP_SHIFTS 1
#define LOOP_WHEN WHEN_ABOVE
#define LOOP_LOW 2.0
#define LOOP_HIGH 12.0
#define LOOP_KNOB 1
#define LOOP_KNOB_FROM 2.0
#define LOOP_KNOB_TO 12.0
#define LOOP_HYSTERESIS 0.5
#define LOOP_TRIP_AFTER 3
#define LOOP_CLEAR_AFTER 3
#define LOOP_LATCH 0
#define LOOP_ON_FAULT FAULT_ALARM
#define LOOP_FAULTS_ALLOWED 5
#define LOOP_LAMP 1
#define LOOP_LAMP_BLINK_MS 250
#define LOOP_SOUNDER 1
#define LOOP_SOUNDER_ON_MS 200
#define LOOP_SOUNDER_OFF_MS 300
#define LOOP_RELAY 0
#define LOOP_MUTE 0
#define LOOP_SETTINGS 0
#define LOOP_REPORT REPORT_NONE
#define LOOP_STEPS 1

#endif
