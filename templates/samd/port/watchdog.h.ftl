<#include "/portable/head.ftl">
<@head about="Feeds the watchdog."/>
#ifndef WATCHDOG_H
#define WATCHDOG_H

#include "registers.h"

/* The food takes some milliseconds to get there; more of it meanwhile would hold the core up. */
static inline void port_watchdog_feed(void)
{
    if ((WDT_STATUS & WDT_STATUS_SYNCBUSY) == 0) {
        WDT_CLEAR = WDT_CLEAR_KEY;
    }
}

#endif
