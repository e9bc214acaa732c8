/* What the firmware drives: a lamp, a relay and a sounder. */
#ifndef OUTPUTS_H
#define OUTPUTS_H

#include <stdbool.h>
#include <stdint.h>

/* What is switched on; says what has changed. Call it at every step. */
void outputs_step(bool lamp, bool relay, bool sounder, uint64_t ns);

/* Says what tone was still going on at the end. */
void outputs_end(void);

#endif
