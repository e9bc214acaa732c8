<#include "/portable/head.ftl">
<@head about="Reads, averages, judges, and rests for what is left of the period."/>
#include "../bus/bus.h"
#include "../port/port.h"
#include "../yours/hooks.h"
#include "alarm.h"
<#if t.average != "none">
#include "average.h"
</#if>
#include "pace.h"
#include "reading.h"
<#if t.report != "none">
#include "report.h"
</#if>
<#if t.settings == "yes">
#include "settings.h"
</#if>

int main(void)
{
    port_begin();
    pace_begin();
<#if t.report != "none">
    port_serial_begin();
</#if>
<#if t.settings == "yes">
    settings_load();
</#if>
    YOURS_BEGIN();

    for (;;) {
        value_t value = reading_take();

<#assign failed = (t.frozen == "yes")?then("bus_fault || reading_frozen(value)", "bus_fault")>
        if (${failed}) {
<#if t.acts == "yes">
            alarm_fault();
</#if>
<#if t.report != "none">
            report_fault();
</#if>
<#if t.acts == "no" && t.report == "none">
            /* The alarm stays as it is until the sensor answers again. */
</#if>
        } else {
<#if t.average == "none">
<#if t.forgives == "yes">
            alarm_faults = 0;
</#if>
            alarm_judge((sum_t)value);
<#if t.report == "average">
            report_line((sum_t)value);
</#if>
<#elseif t.average == "each">
            sum_t sum = average_add(value);

<#if t.forgives == "yes">
            alarm_faults = 0;
</#if>
            alarm_judge(sum);
<#if t.report == "average">
            report_line(sum);
</#if>
<#else>
<#if t.forgives == "yes">
            alarm_faults = 0;
</#if>
            if (average_add(value)) {
                alarm_judge(average_sum);
<#if t.report == "average">
                report_line(average_sum);
</#if>
            }
</#if>
<#if t.report == "frame">
            report_line();
</#if>
        }
        YOURS_EACH_READING(alarm_on);
        pace_rest();
    }
}
