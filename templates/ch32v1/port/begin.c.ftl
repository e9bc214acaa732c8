<#include "/portable/head.ftl">
<@head about="Makes the part ready: clock, watchdog, pins."/>
#include "port.h"
#include "registers.h"

void port_begin(void)
{
<#if t.clock == "pll">
    /* A wait state above 24 MHz, where the part has any. */
    FLASH_WAITS = 1u;
    /* Half of the 8 MHz oscillator, multiplied: the reference manuals, RCC_CFGR0. */
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
