<#include "/portable/head.ftl">
<@head about="Counts time with ${pace.timer.name}."/>
#include "../src/pace.h"

<#assign counted = t.tick == "counted" kept = t.left == "kept" timer = pace.timer w = family.watchdog.registers>
<#assign r = timer.registers flag_register = r.flag?keep_before(".") flag_bit = r.flag?keep_after(".") mask_register = r.mask?keep_before(".") mask_bit = r.mask?keep_after(".")>
<#if counted || t.sleep == "deep">
#include <avr/interrupt.h>
</#if>
#include <avr/io.h>
<#if t.sleep != "none">
#include <avr/sleep.h>
</#if>
<#if t.watchdog == "yes" || t.sleep == "deep">
#include <avr/wdt.h>
</#if>

<#if t.steps == "yes">
#include "../src/outputs.h"
</#if>
<#if t.sleep == "deep">
#include "../src/alarm.h"
</#if>

<#if kept>
static period_t pace_left;

</#if>
<#if counted>
/* Matches of the timer; the program follows with what it has seen. */
volatile uint8_t pace_count;
static uint8_t pace_seen;

/* By hand, because a compiler saves more registers than one increment needs. */
ISR(${r.vector}, ISR_NAKED)
{
    __asm__ volatile(
        "push r24\n\t"
        "in r24, __SREG__\n\t"
        "push r24\n\t"
        "lds r24, pace_count\n\t"
        "inc r24\n\t"
        "sts pace_count, r24\n\t"
        "pop r24\n\t"
        "out __SREG__, r24\n\t"
        "pop r24\n\t"
        "reti");
}

</#if>
<#if t.sleep == "deep">
/* Nothing to do: waking up is all. */
EMPTY_INTERRUPT(${w.wake_vector})

</#if>
void pace_begin(void)
{
<#list timer.mode as register, bits>
<#if register != r.clock_register>
    ${register} = fixed_u8(${bits});
</#if>
</#list>
    ${r.top} = fixed_u${timer.bits}(PACE_TOP);
<#if timer.toggle.isPresent() && timer.toggle.get().registers.compare??>
    /* The flag comes from a register of its own. */
    ${timer.toggle.get().registers.compare} = fixed_u${timer.bits}(PACE_TOP);
</#if>
<#if counted>
    ${mask_register} = fixed_u8(1 << ${mask_bit});
</#if>
    ${r.clock_register} = fixed_u8(<#if timer.mode[r.clock_register]??>${timer.mode[r.clock_register]} | </#if>PACE_CLOCK_SELECT);
<#if t.sleep == "idle">
    ${family.sleep.registers.control} = fixed_u8((1 << ${family.sleep.registers.enable})<#if family.sleep.registers.idle != "0"> | ${family.sleep.registers.idle}</#if>);
</#if>
<#if kept>
    pace_left = fixed_period(PERIOD_TICKS);
</#if>
<#if counted>
    sei();
</#if>
}

<#macro wait>
<#if counted>
<#if t.sleep == "idle">
    /* No tick falls between looking and sleeping: sei acts one instruction later. */
    for (;;) {
        cli();
        if (<@due/>) {
            break;
        }
        sei();
        sleep_cpu();
    }
    sei();
<#else>
    while (<@pending/>) {
    }
</#if>
<#else>
    while (<@pending/>) {
    }
</#if>
</#macro>
<#macro due><#if counted><#if t.per_tick == "many">(uint8_t)(pace_count - pace_seen) >= PACE_COUNTS<#else>pace_count != pace_seen</#if><#else>(${flag_register} & (1 << ${flag_bit})) != 0</#if></#macro>
<#macro pending><#if counted><#if t.per_tick == "many">(uint8_t)(pace_count - pace_seen) < PACE_COUNTS<#else>pace_count == pace_seen</#if><#else>(${flag_register} & (1 << ${flag_bit})) == 0</#if></#macro>
<#macro step indent>
<#if counted>
${indent}pace_seen = (uint8_t)(pace_seen + <#if t.per_tick == "many">PACE_COUNTS<#else>1</#if>);
<#else>
${indent}${flag_register} = (1 << ${flag_bit});
</#if>
<#if t.watchdog == "yes">
${indent}wdt_reset();
</#if>
<#if t.steps == "yes">
${indent}outputs_step();
</#if>
</#macro>
<#if t.sleep == "deep">
/* Sleeps for one round of the watchdog's own oscillator. */
static void pace_nap(void)
{
    cli();
    wdt_reset();
<#if w.guard??>
    ${w.guard} = 0xD8;
<#else>
    ${w.control} = fixed_u8((1 << WDCE) | (1 << WDE));
</#if>
    ${w.control} = fixed_u8((1 << ${w.wake_bit}) | NAP_PRESCALE);
    ${family.sleep.registers.control} = fixed_u8((1 << ${family.sleep.registers.enable}) | ${family.sleep.registers.power_down});
    sei();
    sleep_cpu();
    ${family.sleep.registers.control} = 0;
}

/* As long as the alarm is off nothing needs the timer, and the part can sleep deeply. */
static void pace_nap_through(void)
{
    uint16_t naps = fixed_u16(NAP_COUNT);

    do {
        pace_nap();
    } while (--naps != 0);
<#if w.guard??>
    ${w.guard} = 0xD8;
    ${w.control} = <#if t.watchdog == "yes">fixed_u8((1 << WDE) | WATCHDOG_PRESCALE)<#else>0</#if>;
<#elseif t.watchdog == "yes">
    wdt_enable(WATCHDOG_TIMEOUT);
<#else>
    wdt_disable();
</#if>
<#if kept>
    /* A tick that has passed since the last reading would shorten the next wait. */
    ${r.count} = 0;
<#if counted>
    pace_seen = pace_count;
<#else>
    ${flag_register} = (1 << ${flag_bit});
</#if>
</#if>
}

</#if>
<#if kept>
static void pace_step(void)
{
<@step "    "/>
    if (pace_left != 0) {
        --pace_left;
    }
}

void pace_tick(void)
{
<@wait/>
    pace_step();
}

void pace_poll(void)
{
    if (<@due/>) {
        pace_step();
    }
}

void pace_rest(void)
{
<#if t.sleep == "deep">
    if (!alarm_on) {
        pace_nap_through();
        pace_left = 0;
    }
</#if>
    while (pace_left != 0) {
        pace_tick();
    }
    pace_left = fixed_period(PERIOD_TICKS);
}
<#else>
void pace_rest(void)
{
    period_t left = fixed_period(PERIOD_TICKS);

<#if t.sleep == "deep">
    if (!alarm_on) {
        pace_nap_through();
        return;
    }
</#if>
    do {
<@indented><@wait/></@indented>
<@step "        "/>
    } while (--left != 0);
}
</#if>
<#macro indented><#local text><#nested></#local>${text?replace("(?m)^    ", "        ", "r")}</#macro>
