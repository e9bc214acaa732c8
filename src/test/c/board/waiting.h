/* Passes quickly over time in which nothing happens. */
#ifndef WAITING_H
#define WAITING_H

#include <stdbool.h>

#include <simavr/sim_avr.h>

/* Call it before an instruction. */
void waiting_before(avr_t *avr);

/*
 * Call it after an instruction: where the program turns in a loop that changes nothing, goes on to
 * the last turn before something happens in the part, or before `until`.
 */
void waiting_after(avr_t *avr, avr_cycle_count_t until);

/* A sleeping part wakes at `until` at the latest, so that the board can have its turn. */
void waiting_asleep(avr_t *avr, avr_cycle_count_t until);

#endif
