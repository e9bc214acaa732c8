<#include "/portable/head.ftl">
<@head about="Reads the knob."/>
#include "port.h"

<#assign c = family.converter.get()>
uint16_t port_knob(void)
{
    ${c.select} = fixed_u8(<#if c.reference != "0">${c.reference} | </#if>KNOB_CHANNEL);
    ${c.control} = fixed_u8((1 << ${c.enable}) | (1 << ${c.start}) | KNOB_PRESCALE);
    /* A conversion takes 25 clocks of the converter and always ends. */
    while ((${c.control} & (1 << ${c.start})) != 0) {
    }
    return ${c.result};
}
