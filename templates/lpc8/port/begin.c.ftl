<#include "/portable/head.ftl">
<@head about="Makes the part ready: clock, watchdog, pins."/>
#include "port.h"

#include "registers.h"

<#if t.clock == "pll">
/* A wait that ends: the PLL locks within 0.1 ms. */
static void wait_for_lock(void)
{
    uint32_t patience = fixed_u32(BUS_PATIENCE);

    while (SYSCON_SYSPLLSTAT == 0 && --patience != 0) {
    }
}

</#if>
void port_begin(void)
{
<#if t.clock != "no">
<#include find("port/clock.ftl")>
</#if>
    SYSCON_ON |= fixed_u32(SYSCON_ON_PINS);
    SWM_PINENABLE0 |= fixed_u32(SWM_TAKEN);
<#if t.watchdog == "yes">
<#include find("port/watchdog_on.ftl")>
    WWDT_TC = fixed_u32(WATCHDOG_RELOAD);
    WWDT_MOD = WWDT_MOD_RESTARTS;
    WWDT_FEED = 0xAAu;
    WWDT_FEED = 0x55u;
</#if>
<#include find("port/begin_pins.ftl")>
}
