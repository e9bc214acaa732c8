<#include "/portable/head.ftl">
<@head about="Makes the part ready: clock, watchdog, pins."/>
#include "port.h"
#include "registers.h"

void port_begin(void)
{
<#if t.clock == "double">
    /* One wait state above 24 MHz, then twice the oscillator: reference manual, 3.4.2 and 16.2. */
    uint32_t patience = fixed_u32(BUS_PATIENCE);

    FLASH_WAITS = 1;
    CLOCK_CONTROL |= CLOCK_PLL;
    while ((CLOCK_CONTROL & CLOCK_PLL_READY) == 0 && --patience != 0) {
    }
    CLOCK_CONFIG = CLOCK_FROM_PLL;
<#elseif t.clock != "no">
    CLOCK_CONFIG = fixed_u8(CLOCK_SETTING);
</#if>
<#include "/crl/port/begin_rest.ftl">
}
