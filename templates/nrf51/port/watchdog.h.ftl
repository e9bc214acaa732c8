<#include "/portable/head.ftl">
<@head about="Feeds the watchdog."/>
#ifndef WATCHDOG_H
#define WATCHDOG_H

#include "registers.h"

static inline void port_watchdog_feed(void)
{
    WDT_RR0 = WDT_RR_RELOAD;
}

#endif
