<#include "/portable/head.ftl">
<@head about="The alarm's state."/>
#include "alarm.h"
<#if t.shows == "yes">

#include "outputs.h"
</#if>

bool alarm_on;
<#if t.mute == "yes">
bool alarm_muted;
</#if>
<#if t.forgives == "yes">
uint8_t alarm_faults;
</#if>
<#if t.count == "yes">
uint8_t alarm_run;
</#if>

void alarm_set(bool on)
{
<#if t.count == "yes">
    alarm_run = 0;
</#if>
<#if t.latch == "yes">
    /* Once on, it stays on until somebody has pressed the button. */
    if (!on && !alarm_muted) {
        return;
    }
</#if>
    alarm_on = on;
<#if t.mute == "yes">
    alarm_muted = false;
</#if>
<#if t.shows == "yes">
    outputs_show(on);
</#if>
}
<#if t.fault != "hold">

void alarm_fault(void)
{
<#if t.forgives == "yes">
    if (alarm_faults < fixed_compare(ALARM_FAULTS_ALLOWED)) {
        ++alarm_faults;
        return;
    }
</#if>
<#if t.fault == "alarm">
    if (!alarm_on) {
        alarm_set(true);
    }
<#else>
    if (alarm_on) {
        alarm_set(false);
    }
</#if>
}
</#if>
