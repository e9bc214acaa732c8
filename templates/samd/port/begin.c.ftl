<#include "/portable/head.ftl">
<@head about="Makes the part ready: clock, watchdog, pins."/>
#include "port.h"

#include "registers.h"

void port_begin(void)
{
<#if t.clock != "no">
    SYSCTRL_OSC8M = (SYSCTRL_OSC8M & ~SYSCTRL_OSC8M_PRESC) | fixed_u32(CLOCK_SETTING);
</#if>
<#if t.watchdog == "yes">
    /* It counts 1024 times a second. */
    GCLK_GENDIV = GCLK_GENDIV_BY_32;
    GCLK_GENCTRL = GCLK_GENCTRL_SLOW;
    GCLK_CLKCTRL = GCLK_CLKCTRL_ON | GCLK_CLKCTRL_GENERATOR_2 | GCLK_WDT;
    WDT_CONFIG = fixed_u8(WATCHDOG_TIMEOUT);
    WDT_CTRL = WDT_CTRL_ENABLE;
</#if>
<#include find("port/begin_pins.ftl")>
}
