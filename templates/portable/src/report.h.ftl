<#include "/portable/head.ftl">
<@head about="One text line for each reading, over the serial port."/>
#ifndef REPORT_H
#define REPORT_H

#include "config.h"

<#if t.send == "average">
/* Sends the average in its unit, a comma, and 1 while the alarm is on, else 0. */
void report_line(sum_t sum);
<#else>
/* Sends the samples of the last frame in their unit, with commas between them. */
void report_line(void);
</#if>

/* Sends a line for a reading that failed. */
void report_fault(void);

#endif
