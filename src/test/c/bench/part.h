/*
 * The simulated part, as the script that is played to it sees it. board/ has one on libsimavr,
 * board32/ one on Unicorn.
 */
#ifndef PART_H
#define PART_H

#include <stdbool.h>
#include <stdint.h>

/* Nanoseconds since the power-up. */
uint64_t part_now(void);

/*
 * Goes on by an instruction, or by more while nothing happens, at most until about `until`; false
 * where the part has stopped for ever.
 */
bool part_step(uint64_t until);

/* The middle of the potentiometer, in millivolts. */
void part_knob(unsigned mv);

/* The mute button. */
void part_press(bool down);

/* What the place of the settings holds, from its first byte on; false where it cannot. */
bool part_keep(uint8_t *bytes, unsigned count);

/* The power fails in the n-th change of the flash from now on, and comes back; false where it cannot. */
bool part_cut(unsigned n);

#endif
