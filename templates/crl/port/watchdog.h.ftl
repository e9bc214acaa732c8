<#include "/portable/head.ftl">
<@head about="The watchdog is told that all is well."/>
#ifndef WATCHDOG_H
#define WATCHDOG_H

#include "registers.h"

static inline void port_watchdog_feed(void)
{
    WATCHDOG_KEY = 0xAAAAu;
}

#endif
