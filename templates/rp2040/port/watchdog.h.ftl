<#include "/portable/head.ftl">
<@head about="Feeds the watchdog."/>
#ifndef WATCHDOG_H
#define WATCHDOG_H

#include "../src/config.h"
#include "registers.h"

static inline void port_watchdog_feed(void)
{
    WATCHDOG_LOAD = fixed_u32(WATCHDOG_COUNT);
}

#endif
