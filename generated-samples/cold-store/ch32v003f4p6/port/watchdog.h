/* SPDX-License-Identifier: 0BSD */
/*
 * The watchdog is told that all is well.
 *
 * cold-store guard, for CH32V003F4P6. Written by ullage from a loop file: to change
 * a number, change it there and emit again.
 */
#ifndef WATCHDOG_H
#define WATCHDOG_H

#include "registers.h"

static inline void port_watchdog_feed(void)
{
    WATCHDOG_KEY = 0xAAAAu;
}

#endif
