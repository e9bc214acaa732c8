<#include "/portable/head.ftl">
<@head about="What the alarm drives."/>
#include "outputs.h"

#include "../port/port.h"
<#if t.steps == "yes">
#include "alarm.h"
</#if>

<#assign beeps = t.pattern?? && t.pattern == "yes" sounds = t.sounder != "none">
<#if t.lamp == "blink">
static uint8_t lamp_left;
</#if>
<#if beeps>
static uint8_t sounder_left;
static bool sounding;
</#if>
<#if beeps>

static void sound(bool on)
{
    sounding = on;
    sounder_left = on ? fixed_u8(SOUNDER_ON_TICKS) : fixed_u8(SOUNDER_OFF_TICKS);
    port_sounder(on);
}
</#if>

void outputs_show(bool on)
{
<#if t.lamp == "blink">
    lamp_left = fixed_u8(LAMP_TICKS);
</#if>
<#if t.lamp != "none">
    port_lamp(on);
</#if>
<#if t.relay == "yes">
    port_relay(on);
</#if>
<#if beeps>
    sound(on);
<#elseif sounds>
    port_sounder(on);
</#if>
}
<#if t.steps == "yes">

void outputs_step(void)
{
    if (!alarm_on) {
        return;
    }
<#if t.lamp == "blink">
    if (--lamp_left == 0) {
        lamp_left = fixed_u8(LAMP_TICKS);
        port_lamp_toggle();
    }
</#if>
<#if t.mute != "none">
    if (port_mute_pressed()) {
        alarm_muted = true;
<#if sounds>
        port_sounder(false);
</#if>
    }
</#if>
<#if beeps>
<#if t.mute != "none">
    if (!alarm_muted && --sounder_left == 0) {
<#else>
    if (--sounder_left == 0) {
</#if>
        sound(!sounding);
    }
</#if>
}
</#if>
