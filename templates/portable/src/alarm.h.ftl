<#include "/portable/head.ftl">
<@head about="Judges the average, and remembers whether the alarm is on."/>
#ifndef ALARM_H
#define ALARM_H

#include "config.h"

extern bool alarm_on;
<#if mute>

/* The mute button was pressed since the alarm went on. */
extern bool alarm_muted;
</#if>
<#if forgives>

/* Readings in a row that have failed. */
extern uint8_t alarm_faults;
</#if>
<#if t.count == "yes">

/* Averages in a row that speak against the state of the alarm. */
extern uint8_t alarm_run;
</#if>

/* Compares an average with the limits and switches the alarm when it is time. */
void alarm_judge(sum_t sum);

/* Switches the alarm. */
void alarm_set(bool on);
<#if fault != "hold">

/* Called for a reading that failed; acts when too many have. */
void alarm_fault(void);
</#if>

#endif
