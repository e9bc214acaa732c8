<#include "/portable/head.ftl">
<@head about="Feeds the watchdog."/>
#ifndef WATCHDOG_H
#define WATCHDOG_H

#include "registers.h"

/* No handler of this firmware touches the watchdog, so nothing comes between the two. */
static inline void port_watchdog_feed(void)
{
    WWDT_FEED = 0xAAu;
    WWDT_FEED = 0x55u;
}

#endif
