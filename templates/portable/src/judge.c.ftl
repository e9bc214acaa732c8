<#include "/portable/head.ftl">
<@head about="Compares the average with the limits."/>
#include "alarm.h"
<#if t.limit == "knob">
#include "knob.h"
<#elseif t.limit == "settings">
#include "settings.h"
</#if>

<#assign past = (t.when == "below")?then("<", ">") back = (t.when == "below")?then("+", "-")>
void alarm_judge(sum_t sum)
{
<#if t.when == "outside">
<#if t.hysteresis == "yes">
    sum_t low = alarm_on ? fixed_sum(ALARM_CLEAR_LOW) : fixed_sum(ALARM_TRIP_LOW);
    sum_t high = alarm_on ? fixed_sum(ALARM_CLEAR_HIGH) : fixed_sum(ALARM_TRIP_HIGH);
    bool past = sum < low || sum > high;
<#else>
    bool past = sum < fixed_sum(ALARM_TRIP_LOW) || sum > fixed_sum(ALARM_TRIP_HIGH);
</#if>
<#elseif t.limit == "fixed">
<#if t.hysteresis == "yes">
    sum_t limit = alarm_on ? fixed_sum(ALARM_CLEAR) : fixed_sum(ALARM_TRIP);
    bool past = sum ${past} limit;
<#else>
    bool past = sum ${past} fixed_sum(ALARM_TRIP);
</#if>
<#else>
    sum_t limit = <#if t.limit == "knob">knob_limit()<#else>settings_trip</#if>;
    bool past;

<#if t.hysteresis == "yes">
    if (alarm_on) {
        limit = (sum_t)(limit ${back} fixed_sum(ALARM_HYSTERESIS));
    }
</#if>
    past = sum ${past} limit;
</#if>

<#if t.count != "no">
    if (past == alarm_on) {
        alarm_run = 0;
    } else if (++alarm_run >=
               (alarm_on ? fixed_u8(ALARM_CLEAR_AFTER) : fixed_u8(ALARM_TRIP_AFTER))) {
        alarm_set(past);
    }
<#else>
    if (past != alarm_on) {
        alarm_set(past);
    }
</#if>
}
