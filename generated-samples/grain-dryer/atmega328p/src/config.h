/* SPDX-License-Identifier: 0BSD */
/*
 * Every number and type of this firmware, and where it comes from.
 *
 * grain-dryer bed, for ATmega328P. Written by ullage from a loop file: to change
 * a number, change it there and emit again.
 */
#ifndef CONFIG_H
#define CONFIG_H

#include <stdbool.h>
#include <stdint.h>

#include "fixed.h"

/* Types, each as narrow as the numbers that it must hold allow. */

/* one sample, 16 bits. */
typedef int16_t raw_t;

/* one frame. */
typedef uint16_t value_t;

/* what is judged: the sum of 4 frames. */
typedef uint16_t sum_t;

/* ticks of a period. */
typedef uint8_t period_t;

/* Hides a number of a type of ours from the optimiser. */
#define fixed_raw(value) fixed_s16(value)
#define fixed_sum(value) fixed_u16(value)
#define fixed_period(value) fixed_u8(value)

/* sensor.address, 7-bit. */
#define SENSOR_ADDRESS 0x69u

/* sensor.ask, byte 1. */
#define SENSOR_ASK_0 0x80u

/* bytes of a frame on the bus. */
#define FRAME_BYTES 128u

/* sensor.frame.samples. */
#define FRAME_SAMPLES 64u

/* average.level, in raw counts. */
#define FRAME_LEVEL 240

/* average.readings. */
#define AVERAGE_READINGS 4u

/* alarm.threshold, in counts of sum_t: trips above this. */
#define ALARM_TRIP 64U

/* alarm.threshold moved back by alarm.hysteresis. */
#define ALARM_CLEAR 51U

/* alarm.faults_allowed. */
#define ALARM_FAULTS_ALLOWED 5u

/* outputs.lamp.blink_ms, in ticks. */
#define LAMP_TICKS 5u

/* counts to units of 10^-1, times 2^1. */
#define REPORT_MULTIPLIER 5L

/* sensor.scale.offset, and half to round. */
#define REPORT_ADDEND 1L

/* bits of fraction in the multiplier. */
#define REPORT_SHIFT 1u

/* digits after the point. */
#define REPORT_DECIMALS 1u

/* period_ms 1000, in ticks. */
#define PERIOD_TICKS 10U

/* 100.000 ms a tick of timer1, for 100 ms. */
#define PACE_TOP 12499u

/* clock divided by 64. */
#define PACE_CLOCK_SELECT ((1 << CS11) | (1 << CS10))

/* turns of a waiting loop: about 30 ms, then it is a fault. */
#define BUS_PATIENCE 30000u

/* turns of the delay loop in half a bit. */
#define BUS_HALF_BIT 13u

/* sensor.speed_hz 400000: 307.7 kHz from 8 MHz. */
#define BUS_BIT_RATE 5u

/* buffer.send_bytes. */
#define BUS_SEND_BYTES 2u

/* buffer.receive_bytes. */
#define BUS_RECEIVE_BYTES 128u

/* board.clock_hz 8000000. */
#define CLOCK_SETTING 0u

/* extras.report.baud 38400, off by 0.16 %. */
#define SERIAL_DIVIDER 25u

#endif
