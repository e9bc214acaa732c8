/* SPDX-License-Identifier: 0BSD */
/*
 * One text line for each reading, over the serial port.
 *
 * grain-dryer bed, for ATmega1284P. Written by ullage from a loop file: to change
 * a number, change it there and emit again.
 */
#include "report.h"

#include "../port/port.h"
#include "reading.h"
#include "pace.h"

/* Digits of the largest number, and the point. */
#define REPORT_DIGITS 11

static void report_send(uint8_t character)
{
    port_serial_send(character);
    pace_poll();
}

static void report_end(void)
{
    report_send('\r');
    report_send('\n');
}

static void report_number(int32_t number)
{
    uint8_t text[REPORT_DIGITS];
    uint8_t length = 0;
    uint32_t rest = (uint32_t)number;

    if (number < 0) {
        report_send('-');
        rest = 0 - rest;
    }
    do {
        if (length == fixed_u8(REPORT_DECIMALS)) {
            text[length++] = '.';
        }
        text[length++] = (uint8_t)('0' + rest % 10);
        rest /= 10;
    } while (rest != 0 || length < fixed_u8(REPORT_DECIMALS + 2));
    do {
        report_send(text[--length]);
    } while (length != 0);
}

static int32_t report_scale(raw_t counts)
{
    int32_t number = (int32_t)counts * fixed_s32(REPORT_MULTIPLIER);

    number += fixed_s32(REPORT_ADDEND);
    return number >> fixed_u8(REPORT_SHIFT);
}

void report_line(void)
{
    const raw_t *sample = reading_frame;
    uint8_t left = fixed_u8(FRAME_SAMPLES);

    for (;;) {
        report_number(report_scale(*sample++));
        if (--left == 0) {
            break;
        }
        report_send(',');
    }
    report_end();
}

void report_fault(void)
{
    report_send('-');
    report_end();
}
