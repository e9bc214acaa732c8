/* What the models of the LPC800 series share. */
#ifndef LPC_H
#define LPC_H

#include "models.h"

enum lpc_clock { LPC_BUS, LPC_SERIAL, LPC_SCT, LPC_WATCHDOG };
enum { LPC_POWER_ADC = 4 };

/* The Hz of a peripheral's own clock; 0 where it has none. */
double lpc_hz(enum lpc_clock);

/* Cycles of the core in so many of that clock; complains where it has none. */
double lpc_cycles(const struct device *, enum lpc_clock, double ticks);

/* Whether PDRUNCFG gives power to the block of this bit. */
bool lpc_powered(unsigned bit);

/* What IOCON says of a pin, which counts on from port 0 to port 1. */
uint32_t lpc_config(unsigned pin);

/* Which pin has this input of the converter, or -1 where the switch matrix gives it none. */
int lpc_input(unsigned channel);

#endif
