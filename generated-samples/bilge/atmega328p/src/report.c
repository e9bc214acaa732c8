/* SPDX-License-Identifier: 0BSD */
/*
 * One text line for each reading, over the serial port.
 *
 * bilge watch, for ATmega328P. Written by ullage from a loop file: to change
 * a number, change it there and emit again.
 */
#include "report.h"

#include "../port/port.h"
#include "alarm.h"

/* Digits of the largest number, and the point. */
#define REPORT_DIGITS 11

static void report_send(uint8_t character)
{
    port_serial_send(character);
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

static int32_t report_scale(sum_t counts)
{
    return (int32_t)counts;
}

void report_line(sum_t sum)
{
    report_number(report_scale(sum));
    report_send(',');
    report_send(alarm_on ? '1' : '0');
    report_end();
}

void report_fault(void)
{
    report_send('-');
    report_end();
}
