/* SPDX-License-Identifier: 0BSD */
/*
 * Every number and type of this firmware, and where it comes from.
 *
 * compost-heap watering, for ATmega8A. Written by ullage from a loop file: to change
 * a number, change it there and emit again.
 */
#ifndef CONFIG_H
#define CONFIG_H

#include <stdbool.h>
#include <stdint.h>

#include "fixed.h"

/* Types, each as narrow as the numbers that it must hold allow. */

/* one sample, 16 bits. */
typedef uint16_t raw_t;

/* one frame. */
typedef uint16_t value_t;

/* what is judged: 16 times the smoothed frame. */
typedef uint32_t sum_t;

/* ticks of a period. */
typedef uint16_t period_t;

/* Hides a number of a type of ours from the optimiser. */
#define fixed_raw(value) fixed_u16(value)
#define fixed_sum(value) fixed_u32(value)
#define fixed_period(value) fixed_u16(value)

/* sensor.address, 7-bit. */
#define SENSOR_ADDRESS 0x44u

/* sensor.ask, byte 1. */
#define SENSOR_ASK_0 0x24u

/* sensor.ask, byte 2. */
#define SENSOR_ASK_1 0x00u

/* sensor.wait_ms 16, rounded up. */
#define SENSOR_WAIT_TICKS 2u

/* sensor.frame.skip_bytes. */
#define FRAME_SKIP 3u

/* sensor.frame.check, CRC-8 polynomial. */
#define CHECK_POLY 0x31u

/* sensor.frame.check, start value. */
#define CHECK_INIT 0xFFu

/* average.readings. */
#define AVERAGE_READINGS 16u

/* half of average.readings, to round. */
#define AVERAGE_HALF 8u

/* average.readings is a power of two. */
#define AVERAGE_SHIFT 4u

/* alarm.trip_after. */
#define ALARM_TRIP_AFTER 4u

/* alarm.clear_after. */
#define ALARM_CLEAR_AFTER 4u

/* alarm.threshold, in counts of sum_t: trips below this. */
#define ALARM_TRIP 471853UL

/* alarm.hysteresis, in counts of sum_t. */
#define ALARM_HYSTERESIS 31457UL

/* alarm.faults_allowed. */
#define ALARM_FAULTS_ALLOWED 5u

/* counts to units of 10^-2, times 2^17. */
#define REPORT_MULTIPLIER 1250L

/* sensor.scale.offset, and half to round. */
#define REPORT_ADDEND 65536L

/* bits of fraction in the multiplier. */
#define REPORT_SHIFT 17u

/* digits after the point. */
#define REPORT_DECIMALS 2u

/* period_ms 5000, in ticks. */
#define PERIOD_TICKS 313U

/* 16.000 ms a tick of timer1, for 16 ms. */
#define PACE_TOP 15999u

/* clock divided by 1. */
#define PACE_CLOCK_SELECT ((1 << CS10))

/* turns of a waiting loop: about 30 ms, then it is a fault. */
#define BUS_PATIENCE 3750u

/* turns of the delay loop in half a bit. */
#define BUS_HALF_BIT 2u

/* sensor.speed_hz 100000: 62.5 kHz from 1 MHz. */
#define BUS_BIT_RATE 0u

/* extras.watchdog_ms 8000: restarts after about 2000 ms. */
#define WATCHDOG_TIMEOUT 7u

/* extras.report.baud 9600, off by 0.16 %. */
#define SERIAL_DIVIDER 12u

#endif
