/* SPDX-License-Identifier: 0BSD */
/*
 * Feeds the watchdog.
 *
 * cold-store guard, for STM32F030F4. Written by ullage from a loop file: to change
 * a number, change it there and emit again.
 */
#ifndef WATCHDOG_H
#define WATCHDOG_H

#include "registers.h"

static inline void port_watchdog_feed(void)
{
    IWDG_KR = IWDG_KR_RELOAD;
}

#endif
