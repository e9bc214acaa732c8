<#include "/portable/head.ftl">
<@head about="Makes the part ready: clock, watchdog, pins."/>
#include "port.h"

#include "registers.h"

void port_begin(void)
{
<#if t.clock != "no">
<#include find("port/clock.ftl")>
</#if>
    RCC_PORTS = fixed_u32(RCC_PORTS_ON);
<#if t.watchdog == "yes">
    /* It runs through its longest time first; the first reload takes the time that is set here. */
    IWDG_KR = IWDG_KR_START;
    IWDG_KR = IWDG_KR_UNLOCK;
    IWDG_PR = fixed_u8(WATCHDOG_PRESCALE);
    IWDG_RLR = fixed_u16(WATCHDOG_RELOAD);
</#if>
<#include find("port/begin_pins.ftl")>
}
