<#include "/portable/head.ftl">
<@head about="Makes the part ready: clock, watchdog, pins."/>
#include "port.h"
#include "registers.h"

void port_begin(void)
{
<#if t.clock == "pll">
    /* Half of the 8 MHz oscillator, multiplied: GD32VF103 user manual, 5.3.2. */
    CLOCK_CONFIG = fixed_u32(CLOCK_SETTING);
    CLOCK_CONTROL |= CLOCK_PLL;
    while ((CLOCK_CONTROL & CLOCK_PLL_READY) == 0) {
    }
    CLOCK_CONFIG = fixed_u32(CLOCK_SETTING) | CLOCK_FROM_PLL;
<#elseif t.clock != "no">
    CLOCK_CONFIG = fixed_u8(CLOCK_SETTING);
</#if>
<#include "/crl/port/begin_rest.ftl">
}
