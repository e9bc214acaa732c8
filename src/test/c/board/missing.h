/* What the simulator (version 1.6) does not know of some parts. */
#ifndef MISSING_H
#define MISSING_H

#include <stdbool.h>

#include <simavr/sim_avr.h>

/* Call it before the reset. */
void missing_begin(avr_t *avr, const char *part);

/* Call it after every reset. */
void missing_reset(avr_t *avr);

/* Call it before every instruction. */
void missing_before(avr_t *avr, uint64_t ns);

/* Call it after every instruction: a new length of the watchdog counts at once, not from later on. */
void missing_after(avr_t *avr);

/* How often the part has gone to sleep: in power-down, or idle. */
unsigned missing_naps(bool deep);

#endif
