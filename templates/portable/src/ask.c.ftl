<#include "/portable/head.ftl">
<@head about="Asks the sensor for a frame."/>
#include "../bus/bus.h"
<#if t.check == "yes">
#include "check.h"
</#if>
<#if t.wait != "no">
#include "pace.h"
</#if>
#include "reading.h"

void reading_ask(void)
{
<#if t.wait != "no">
    <#if t.wait == "long">uint16_t<#else>uint8_t</#if> ticks = <#if t.wait == "long">fixed_u16<#else>fixed_u8</#if>(SENSOR_WAIT_TICKS);
</#if>
<#if t.skip == "yes">
    uint8_t skip = fixed_u8(FRAME_SKIP);
</#if>
<#if t.wait != "no" || t.skip == "yes">

</#if>
    bus_begin();
<#if t.ask == "yes">
<#if t.bus == "stream">
    bus_start(fixed_u8(BUS_TO(SENSOR_ADDRESS)));
</#if>
<#list 0..<n.ask as i>
    bus_put(fixed_u8(SENSOR_ASK_${i}));
</#list>
<#if t.between == "stop">
<#if t.bus == "stream">
    bus_stop();
<#else>
    bus_flush();
</#if>
</#if>
<#if t.wait != "no">
    do {
        pace_tick();
    } while (--ticks != 0);
</#if>
</#if>
<#if t.bus == "stream">
    bus_start(fixed_u8(BUS_FROM(SENSOR_ADDRESS)));
<#else>
    bus_fetch(fixed_u8(FRAME_BYTES));
</#if>
<#if t.check == "yes">
    check_value = fixed_u8(CHECK_INIT);
</#if>
<#if t.skip == "yes">
    do {
        (void)<#if t.check == "yes">check_get<#else>bus_get</#if>(BUS_MORE);
    } while (--skip != 0);
</#if>
}
