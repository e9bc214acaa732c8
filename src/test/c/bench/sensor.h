/* A two-wire sensor that answers with frames from a script, and with faults. */
#ifndef SENSOR_H
#define SENSOR_H

#include <stdbool.h>
#include <stdint.h>

#define FRAME_MOST 256

/* `valid_ns`: how long it takes to move the data line. */
void sensor_begin(uint8_t address, uint64_t valid_ns);

/* How long it holds the clock after each byte that it takes, from now on. */
void sensor_stretch(uint64_t ns);

/* What it answers from now on. */
void sensor_frame(const uint8_t *bytes, unsigned count);

/* Deaf: does not acknowledge its address. Refuses: does not acknowledge what is written to it. */
void sensor_mood(bool deaf, bool refuses);

/* As if it had been cut off in the middle of a byte of zeros. */
void sensor_stuck_in_byte(void);

/* Holds the lines from outside, for example by a short circuit. */
void sensor_hold(bool data, bool clock);

/* Sees the lines; call it at every step. */
void sensor_see(uint64_t ns, bool sda, bool scl);

/* Nothing will move unless the lines do. */
bool sensor_is_calm(void);

/* Holds the clock to gain time. */
bool sensor_stretches(void);

/* What it pulls low. */
bool sensor_pulls_sda(void);
bool sensor_pulls_scl(void);

/* What was written to it since its mood was last set. */
unsigned sensor_asked(const uint8_t **bytes);

/* Nanoseconds from the end of that to the START that it was read with; 0 where it was not. */
uint64_t sensor_waited(void);

#endif
