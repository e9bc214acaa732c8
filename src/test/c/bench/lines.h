/* The two lines of the bus: pull-ups, what the firmware and the sensor pull low, and the checker. */
#ifndef LINES_H
#define LINES_H

#include <stdbool.h>
#include <stdint.h>

/* What the firmware pulls low from `ns` on. Call it also while lines_calm() is false. */
void lines_pull(uint64_t ns, bool sda, bool scl);

/* Whether the firmware would have to be heard: it pulls something else than it did. */
bool lines_change(bool sda, bool scl);

/* The lines as they are. */
bool lines_sda(void);
bool lines_scl(void);

/* Nothing will move unless the firmware moves it. */
bool lines_calm(void);

/* How long the sensor holds the clock after each byte that it takes, from now on. */
void lines_stretch(uint64_t ns);

/* The firmware drives a line high, which no two-wire bus allows; said once. */
void lines_driven_high(uint64_t ns, const char *line);

#endif
