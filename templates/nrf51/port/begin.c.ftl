<#include "/portable/head.ftl">
<@head about="Makes the part ready: watchdog, pins."/>
#include "port.h"

#include "registers.h"

/* The part runs on the 16 MHz of its RC oscillator from the start, and has no other clock. */
void port_begin(void)
{
<#if t.watchdog == "yes">
    /* It starts its own oscillator, and cannot be set or stopped once it runs. */
    WDT_CRV = fixed_u32(WATCHDOG_RELOAD);
    WDT_TASKS_START = 1u;
</#if>
<#include find("port/begin_pins.ftl")>
}
