<#include "/portable/head.ftl">
<@head about="Makes the part ready: clock, watchdog, pins."/>
#include "port.h"
#include "registers.h"

void port_begin(void)
{
<#if t.clock == "pll" || t.clock == "waits">
    uint32_t patience = fixed_u32(BUS_PATIENCE);

<#if t.clock == "waits">
    /* Prefetch, and a wait state above 24 MHz: PM0075 3.1, CH32V103 reference manual, FLASH_ACTLR. */
    FLASH_WAITS = 0x11u;
</#if>
    /* Half of the 8 MHz oscillator, multiplied: RM0008 7.3.2, and the manuals alike. */
    CLOCK_CONFIG = fixed_u32(CLOCK_SETTING);
    CLOCK_CONTROL |= CLOCK_PLL;
    while ((CLOCK_CONTROL & CLOCK_PLL_READY) == 0 && --patience != 0) {
    }
    CLOCK_CONFIG = fixed_u32(CLOCK_SETTING) | CLOCK_FROM_PLL;
<#elseif t.clock != "no">
    CLOCK_CONFIG = fixed_u8(CLOCK_SETTING);
</#if>
<#include "/crl/port/begin_rest.ftl">
}
