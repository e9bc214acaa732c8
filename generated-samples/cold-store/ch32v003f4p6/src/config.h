/* SPDX-License-Identifier: 0BSD */
/*
 * Every number and type of this firmware, and where it comes from.
 *
 * cold-store guard, for CH32V003F4P6. Written by ullage from a loop file: to change
 * a number, change it there and emit again.
 */
#ifndef CONFIG_H
#define CONFIG_H

#include <stdbool.h>
#include <stdint.h>

#include "fixed.h"

/* Types, each as narrow as the numbers that it must hold allow. */

/* one sample, 11 bits. */
typedef int16_t raw_t;

/* one frame. */
typedef int16_t value_t;

/* what is judged: the sum of 8 frames. */
typedef int16_t sum_t;

/* ticks of a period. */
typedef uint8_t period_t;

/* Hides a number of a type of ours from the optimiser. */
#define fixed_raw(value) fixed_s16(value)
#define fixed_sum(value) fixed_s16(value)
#define fixed_period(value) fixed_u8(value)

/* sensor.address, 7-bit. */
#define SENSOR_ADDRESS 0x48u

/* sensor.ask, byte 1. */
#define SENSOR_ASK_0 0x00u

/* sensor.frame.shift_right. */
#define SAMPLE_SHIFT 5u

/* average.readings. */
#define AVERAGE_READINGS 8u

/* alarm.trip_after. */
#define ALARM_TRIP_AFTER 3u

/* alarm.clear_after. */
#define ALARM_CLEAR_AFTER 3u

/* alarm.hysteresis, in counts of sum_t. */
#define ALARM_HYSTERESIS 32

/* alarm.faults_allowed. */
#define ALARM_FAULTS_ALLOWED 5u

/* alarm.knob.from, in counts of sum_t. */
#define KNOB_LOW 128

/* takes the converter's 1023 to alarm.knob.to. */
#define KNOB_MULTIPLIER 641U

/* outputs.lamp.blink_ms, in ticks. */
#define LAMP_TICKS 5u

/* outputs.sounder.tone_hz 2700: 2700.9 Hz from 8 MHz / 1 / 2 / (top + 1). */
#define TONE_TOP 1480u

/* clock divided by 1. */
#define TONE_CLOCK_SELECT (0)

/* as the pins that were chosen need it. */
#define TONE_REMAP 0u

/* outputs.sounder.on_ms, in ticks. */
#define SOUNDER_ON_TICKS 4u

/* outputs.sounder.off_ms, in ticks. */
#define SOUNDER_OFF_TICKS 6u

/* period_ms 1000, in ticks. */
#define PERIOD_TICKS 20U

/* 50.000 ms a tick of STK, for 50 ms. */
#define PACE_TOP 399999u

/* clock divided by 1. */
#define PACE_CLOCK_SELECT (13)

/* turns of a waiting loop: about 30 ms, then it is a fault. */
#define BUS_PATIENCE 30000u

/* sensor.speed_hz 100000: 100.0 kHz from 8 MHz. */
#define BUS_FREQUENCY 8u

/* sensor.speed_hz 100000: 100.0 kHz from 8 MHz. */
#define BUS_RISE_TIME 9u

/* sensor.speed_hz 100000: 100.0 kHz from 8 MHz. */
#define BUS_RATE 40u

/* turns of the delay loop in half a bit. */
#define BUS_HALF_BIT 19u

/* as the pins that were chosen need it. */
#define BUS_REMAP 0u

/* input of PC4. */
#define KNOB_CHANNEL 2u

/* converter clock divided by 2. */
#define KNOB_PRESCALE (0)

/* PC1. */
#define PIN_SDA 33u

/* PC2. */
#define PIN_SCL 34u

/* PC4. */
#define PIN_KNOB 36u

/* PC0. */
#define PIN_LAMP 32u

/* PD4. */
#define PIN_SOUNDER 52u

#endif
