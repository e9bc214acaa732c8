<#include "/portable/head.ftl">
<@head about="Makes the part ready: clock, watchdog, pins."/>
#include "port.h"
<#if t.watchdog == "yes">

#include <avr/wdt.h>
</#if>
<#assign w = family.watchdog.registers>

void port_begin(void)
{
<#if t.clock == "yes">
<#if w.guard??>
    /* The signature lets the next write through. */
    ${w.guard} = 0xD8;
<#else>
    CLKPR = fixed_u8(1 << CLKPCE);
</#if>
    CLKPR = fixed_u8(CLOCK_SETTING);
</#if>
<#if t.watchdog == "yes">
<#if w.guard??>
    wdt_reset();
    ${w.guard} = 0xD8;
    ${w.control} = fixed_u8((1 << WDE) | WATCHDOG_PRESCALE);
<#else>
    wdt_enable(WATCHDOG_TIMEOUT);
</#if>
</#if>
<#if pin.lamp??>
<#if has.outputs.lamp_on == "low">
    PORT${pin.lamp.port} |= PORT_BIT(${pin.lamp.bit});
</#if>
    DDR${pin.lamp.port} |= PORT_BIT(${pin.lamp.bit});
</#if>
<#if pin.relay??>
<#if has.outputs.relay_on == "low">
    PORT${pin.relay.port} |= PORT_BIT(${pin.relay.bit});
</#if>
    DDR${pin.relay.port} |= PORT_BIT(${pin.relay.bit});
</#if>
<#if pin.sounder??>
    DDR${pin.sounder.port} |= PORT_BIT(${pin.sounder.bit});
</#if>
<#if pin.mute??>
    PORT${pin.mute.port} |= PORT_BIT(${pin.mute.bit});
</#if>
}
