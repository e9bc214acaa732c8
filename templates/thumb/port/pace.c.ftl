<#include "/portable/head.ftl">
<@head about="Counts time with the core's own timer."/>
#include "../src/pace.h"

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
</#if>

/* System timer: Armv6-M and Armv7-M Architecture Reference Manuals, B3.3. */
#define TICK_CONTROL (*(volatile uint32_t *)0xE000E010u)
#define TICK_RELOAD (*(volatile uint32_t *)0xE000E014u)
#define TICK_COUNT (*(volatile uint32_t *)0xE000E018u)
#define TICK_INTERRUPT 2u
#define TICK_PASSED 0x10000u

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
    ++pace_count;
}

</#if>
<#if t.sleep == "deep">
<#include find("port/nap.ftl")>

</#if>
void pace_begin(void)
{
    TICK_RELOAD = fixed_u32(PACE_TOP);
    TICK_COUNT = 0;
    TICK_CONTROL = fixed_u8(PACE_CLOCK_SELECT)<#if counted> | TICK_INTERRUPT</#if>;
<#if kept>
    pace_left = fixed_period(PERIOD_TICKS);
</#if>
<#if t.sleep == "deep">
    nap_begin();
</#if>
<#if counted>
    __asm__ volatile("cpsie i" : : : "memory");
</#if>
}

<#macro afresh>
    TICK_COUNT = 0;
</#macro>
<#macro due><#if counted>pace_count != pace_seen<#else>(TICK_CONTROL & TICK_PASSED) != 0</#if></#macro>
<#macro pending><#if counted>pace_count == pace_seen<#else>(TICK_CONTROL & TICK_PASSED) == 0</#if></#macro>
<#macro clear indent>
<#if counted>
${indent}++pace_seen;
</#if>
</#macro>
<#include "/thumb/port/wait.ftl">
<#include "/numbered/port/pace_steps.ftl">
