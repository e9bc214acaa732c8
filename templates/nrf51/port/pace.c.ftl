<#include "/portable/head.ftl">
<@head about="Counts time with ${pace.timer.name}."/>
#include "../src/pace.h"

#include "registers.h"

<#import find("port/irq.ftl") as irq>
<#assign counted = t.tick == "counted" kept = t.left == "kept">
<#if t.watchdog == "yes">
#include "watchdog.h"
</#if>
<#if t.steps == "yes">
#include "../src/outputs.h"
</#if>
<#if t.sleep == "deep">
#include "../src/alarm.h"

<#include find("port/nap.ftl")>
</#if>

<#if kept>
static period_t pace_left;

</#if>
<#if counted>
/* Ticks; the program follows with what it has seen. */
static volatile uint8_t pace_count;
static uint8_t pace_seen;

void isr_pace(void);

void isr_pace(void)
{
    TIMER0_EVENTS_COMPARE0 = 0;
    ++pace_count;
}

</#if>
void pace_begin(void)
{
    TIMER0_BITMODE = TIMER0_BITMODE_32;
    TIMER0_PRESCALER = fixed_u8(PACE_CLOCK_SELECT);
    TIMER0_CC0 = fixed_u32(PACE_TOP) + 1u;
    TIMER0_SHORTS = TIMER_SHORTS_COMPARE0_CLEAR;
<#if counted>
    TIMER0_INTENSET = TIMER0_INTENSET_COMPARE0;
</#if>
    TIMER0_TASKS_START = 1u;
<#if kept>
    pace_left = fixed_period(PERIOD_TICKS);
</#if>
<#if t.sleep == "deep">
    nap_begin();
</#if>
<#if counted>
    <@irq.enable timer_vector()/>
    <@irq.on/>
</#if>
}

<#function timer_vector><#return pace.timer.registers.vector></#function>
<#macro afresh>
    TIMER0_EVENTS_COMPARE0 = 0;
</#macro>
<#macro due><#if counted>pace_count != pace_seen<#else>TIMER0_EVENTS_COMPARE0 != 0</#if></#macro>
<#macro pending><#if counted>pace_count == pace_seen<#else>TIMER0_EVENTS_COMPARE0 == 0</#if></#macro>
<#macro clear indent>
<#if counted>
${indent}++pace_seen;
<#else>
${indent}TIMER0_EVENTS_COMPARE0 = 0;
</#if>
</#macro>
<#include "/thumb/port/wait.ftl">
<#include "/numbered/port/pace_steps.ftl">
