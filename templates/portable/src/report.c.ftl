<#include "/portable/head.ftl">
<@head about="One text line for each reading, over the serial port."/>
#include "report.h"

#include "../port/port.h"
<#if t.send == "average">
#include "alarm.h"
<#else>
#include "reading.h"
</#if>
<#if t.poll == "yes">
#include "pace.h"
</#if>

/* Digits of the largest number, and the point. */
#define REPORT_DIGITS 11

static void report_send(uint8_t character)
{
    port_serial_send(character);
<#if t.poll == "yes">
    pace_poll();
</#if>
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
<#if t.point == "yes">
        if (length == fixed_u8(REPORT_DECIMALS)) {
            text[length++] = '.';
        }
</#if>
        text[length++] = (uint8_t)('0' + rest % 10);
        rest /= 10;
<#if t.point == "yes">
    } while (rest != 0 || length < fixed_u8(REPORT_DECIMALS + 2));
<#else>
    } while (rest != 0);
</#if>
    do {
        report_send(text[--length]);
    } while (length != 0);
}

static int32_t report_scale(<#if t.send == "average">sum_t<#else>raw_t</#if> counts)
{
<#if t.scale == "yes">
    int32_t number = (int32_t)counts * fixed_s32(REPORT_MULTIPLIER);

    number += fixed_s32(REPORT_ADDEND);
    return number >> fixed_u8(REPORT_SHIFT);
<#else>
    return (int32_t)counts;
</#if>
}

<#if t.send == "average">
void report_line(sum_t sum)
{
    report_number(report_scale(sum));
    report_send(',');
    report_send(alarm_on ? '1' : '0');
    report_end();
}
<#else>
void report_line(void)
{
<#if t.samples == "many">
    const raw_t *sample = reading_frame;
    uint8_t left = fixed_u8(FRAME_SAMPLES);

    for (;;) {
        report_number(report_scale(*sample++));
        if (--left == 0) {
            break;
        }
        report_send(',');
    }
<#else>
    report_number(report_scale(reading_frame[0]));
</#if>
    report_end();
}
</#if>

void report_fault(void)
{
    report_send('-');
    report_end();
}
