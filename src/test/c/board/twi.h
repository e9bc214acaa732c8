/*
 * The two-wire controller of the megax8, bit by bit on the lines. The simulator's own never clears
 * its flag and moves no pin.
 */
#ifndef TWI_H
#define TWI_H

#include <stdbool.h>

#include <simavr/sim_avr.h>

/* Takes the controller away from the simulator, where the part has one at the known addresses. */
void twi_begin(avr_t *avr);

/* Sees the lines as they are; call it at every step. */
void twi_step(avr_t *avr, bool sda, bool scl);

/* What it pulls low. */
bool twi_pulls_sda(void);
bool twi_pulls_scl(void);

#endif
