<#include "/portable/head.ftl">
<@head about="Reads the knob."/>
#include "port.h"

<#assign c = family.converter.get().registers control = c.enable?keep_before(".") enable = c.enable?keep_after(".")>
uint16_t port_knob(void)
{
    ${c.select} = fixed_u8(<#if c.reference != "0">${c.reference} | </#if>KNOB_CHANNEL);
    ${control} = fixed_u8((1 << ${enable}) | (1 << ${c.start}) | KNOB_PRESCALE);
    /* A conversion takes 25 clocks of the converter and always ends. */
    while ((${control} & (1 << ${c.start})) != 0) {
    }
    return ${c.result};
}
