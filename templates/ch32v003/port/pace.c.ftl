<#include "/portable/head.ftl">
<@head about="Counts time with the core's own timer."/>
#include "../src/pace.h"

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
#include "registers.h"

<#include find("port/nap.ftl")>
</#if>

/* System timer: CH32V003 reference manual, 6.5.4 (STK). */
#define TICK_CONTROL (*(volatile uint32_t *)0xE000F000u)
#define TICK_STATUS (*(volatile uint32_t *)0xE000F004u)
#define TICK_COUNT (*(volatile uint32_t *)0xE000F008u)
#define TICK_RELOAD (*(volatile uint32_t *)0xE000F010u)
#define TICK_INTERRUPT 2u
#define TICK_PASSED 1u

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
    TICK_STATUS = 0;
    ++pace_count;
}

</#if>
void pace_begin(void)
{
    TICK_COUNT = 0;
    TICK_RELOAD = fixed_u32(PACE_TOP);
    TICK_STATUS = 0;
    TICK_CONTROL = fixed_u8(PACE_CLOCK_SELECT)<#if counted> | TICK_INTERRUPT</#if>;
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
    TICK_COUNT = 0;
    TICK_STATUS = 0;
</#macro>
<#macro due><#if counted>pace_count != pace_seen<#else>(TICK_STATUS & TICK_PASSED) != 0</#if></#macro>
<#macro pending><#if counted>pace_count == pace_seen<#else>(TICK_STATUS & TICK_PASSED) == 0</#if></#macro>
<#macro clear indent>
<#if counted>
${indent}++pace_seen;
<#else>
${indent}TICK_STATUS = 0;
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
