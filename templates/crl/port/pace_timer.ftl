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

void isr_pace(void)<@irq.attribute/>;

void isr_pace(void)
{
    PACE_STATUS = 0;
    ++pace_count;
}

</#if>
void pace_begin(void)
{
    CLOCKS_APB1 |= CLOCK_PACE;
    PACE_PRESCALER = fixed_u16(PACE_CLOCK_SELECT);
    PACE_RELOAD = fixed_u16(PACE_TOP);
    /* An update takes the prescaler over. */
    PACE_UPDATE = 1u;
    PACE_STATUS = 0;
<#if counted>
    PACE_INTERRUPTS = 1u;
</#if>
    PACE_CONTROL = 1u;
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
    PACE_UPDATE = 1u;
    PACE_STATUS = 0;
</#macro>
<#macro due><#if counted>pace_count != pace_seen<#else>(PACE_STATUS & 1u) != 0</#if></#macro>
<#macro pending><#if counted>pace_count == pace_seen<#else>(PACE_STATUS & 1u) == 0</#if></#macro>
<#macro clear indent>
<#if counted>
${indent}++pace_seen;
<#else>
${indent}PACE_STATUS = 0;
</#if>
</#macro>
<#macro wait indent>
<#if t.sleep == "idle">
${indent}/* For a tick that falls between looking and sleeping the next one makes up. */
${indent}while (<@pending/>) {
${indent}    __asm__ volatile("wfi" : : : "memory");
${indent}}
<#else>
${indent}while (<@pending/>) {
${indent}}
</#if>
</#macro>
<#include "/numbered/port/pace_steps.ftl">
