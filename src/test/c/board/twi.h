/*
 * The two-wire controller of the megas, bit by bit on the lines. The simulator's own never clears its
 * flag and moves no pin.
 */
#ifndef TWI_H
#define TWI_H

#include <stdbool.h>

#include <simavr/sim_avr.h>

/* Takes the controller away from the simulator, where the part has one. */
void twi_begin(avr_t *avr);

/* As after a reset of the part. */
void twi_reset(avr_t *avr);

/*
 * Sees the data line as it is; call it at every step. True where a line may have moved: since the
 * cycle `at`, which may lie within the last instruction.
 */
bool twi_step(avr_t *avr, bool sda, avr_cycle_count_t *at);

/* Sees what has become of the clock after that. */
void twi_wait(avr_t *avr, bool scl);

/* Nothing is under way. */
bool twi_is_calm(void);

/* What it pulls low. */
bool twi_pulls_sda(void);
bool twi_pulls_scl(void);

#endif
