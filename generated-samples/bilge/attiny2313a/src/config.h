/* SPDX-License-Identifier: 0BSD */
/*
 * Every number and type of this firmware, and where it comes from.
 *
 * bilge watch, for ATtiny2313A. Written by ullage from a loop file: to change
 * a number, change it there and emit again.
 */
#ifndef CONFIG_H
#define CONFIG_H

#include <stdbool.h>
#include <stdint.h>

#include "fixed.h"

/* Types, each as narrow as the numbers that it must hold allow. */

/* one sample, 12 bits. */
typedef uint16_t raw_t;

/* one frame. */
typedef uint16_t value_t;

/* what is judged: the middle of 5 frames. */
typedef uint16_t sum_t;

/* ticks of a period. */
typedef uint8_t period_t;

/* Hides a number of a type of ours from the optimiser. */
#define fixed_raw(value) fixed_u16(value)
#define fixed_sum(value) fixed_u16(value)
#define fixed_period(value) fixed_u8(value)

/* sensor.address, 7-bit. */
#define SENSOR_ADDRESS 0x4Du

/* sensor.frame.shift_right. */
#define SAMPLE_SHIFT 4u

/* average.readings. */
#define AVERAGE_READINGS 5u

/* alarm.trip_after. */
#define ALARM_TRIP_AFTER 6u

/* alarm.clear_after. */
#define ALARM_CLEAR_AFTER 20u

/* alarm.low: trips below this. */
#define ALARM_TRIP_LOW 120U

/* alarm.high: trips above this. */
#define ALARM_TRIP_HIGH 1800U

/* alarm.low moved in by the hysteresis. */
#define ALARM_CLEAR_LOW 160U

/* alarm.high moved in by the hysteresis. */
#define ALARM_CLEAR_HIGH 1760U

/* alarm.faults_allowed. */
#define ALARM_FAULTS_ALLOWED 5u

/* outputs.sounder.tone_hz 3000: 2994.0 Hz from 1 MHz / 1 / 2 / (top + 1). */
#define TONE_TOP 166u

/* clock divided by 1. */
#define TONE_CLOCK_SELECT ((1 << CS00))

/* outputs.sounder.on_ms, in ticks. */
#define SOUNDER_ON_TICKS 3u

/* outputs.sounder.off_ms, in ticks. */
#define SOUNDER_OFF_TICKS 17u

/* digits after the point. */
#define REPORT_DECIMALS 1u

/* period_ms 500, in ticks. */
#define PERIOD_TICKS 10U

/* 50.000 ms a tick of timer1, for 50 ms. */
#define PACE_TOP 49999u

/* clock divided by 1. */
#define PACE_CLOCK_SELECT ((1 << CS10))

/* turns of a waiting loop: about 30 ms, then it is a fault. */
#define BUS_PATIENCE 3750u

/* extras.report.baud 9600, off by 0.16 %. */
#define SERIAL_DIVIDER 12u

#endif
