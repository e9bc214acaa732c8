/* A two-wire sensor that answers with frames from a script, and with faults. */
#ifndef SENSOR_H
#define SENSOR_H

#include <stdbool.h>
#include <stdint.h>

#define FRAME_MOST 256

/* `valid_ns`: how long it takes to move the data line; `stretch_ns`: how long it holds the clock. */
void sensor_begin(uint8_t address, uint64_t valid_ns, uint64_t stretch_ns);

/* What it answers from now on. */
void sensor_frame(const uint8_t *bytes, unsigned count);
void sensor_deaf(bool deaf);

/* As if it had been cut off in the middle of a byte of zeros. */
void sensor_stuck_in_byte(void);

/* Holds the lines from outside, for example by a short circuit. */
void sensor_hold(bool data, bool clock);

/* Sees the lines; call it at every step. */
void sensor_see(uint64_t ns, bool sda, bool scl);

/* What it pulls low. */
bool sensor_pulls_sda(void);
bool sensor_pulls_scl(void);

/* The last bytes that were written to it, up to the last STOP. */
unsigned sensor_asked(const uint8_t **bytes);

#endif
