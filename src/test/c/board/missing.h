/* What the simulator (version 1.6) does not know of some parts. */
#ifndef MISSING_H
#define MISSING_H

#include <simavr/sim_avr.h>

/* Call it before the reset. */
void missing_begin(avr_t *avr, const char *part);

/* Call it at every step. */
void missing_step(avr_t *avr);

#endif
