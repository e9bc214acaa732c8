<#include "/portable/head.ftl">
<@head about="Makes the pins ready."/>
#include "port.h"

void port_pins_begin(void)
{
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
<#if has.serial?? && has.serial.kind == "software">
    PORT${pin.transmit.port} |= PORT_BIT(${pin.transmit.bit});
    DDR${pin.transmit.port} |= PORT_BIT(${pin.transmit.bit});
</#if>
}
