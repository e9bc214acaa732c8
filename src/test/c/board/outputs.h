/* What the firmware drives: a lamp, a relay and a sounder. */
#ifndef OUTPUTS_H
#define OUTPUTS_H

#include "pins.h"

struct outputs {
    struct pin lamp;
    struct pin relay;
    struct pin sounder;
};

/* Says what has changed; call it at every step. */
void outputs_step(const avr_t *avr, const struct outputs *outputs, uint64_t ns);

/* Says what tone was still going on at the end. */
void outputs_end(void);

#endif
