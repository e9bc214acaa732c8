/* Passes quickly over loops that wait: turns that change nothing are counted, not run. */
#ifndef WAITING32_H
#define WAITING32_H

#include <stdint.h>

#include "core.h"

/* The program has changed memory or touched a device. */
void waiting_effect(void);

/* The program has gone back to this address; goes on to the last turn before something happens. */
void waiting_turn(uc_engine *uc, const struct instruction_set *set, uint32_t address, uint64_t until);

#endif
