/* The part of a two-wire controller that moves the lines: conditions and bytes, by its times. */
#ifndef WIRE_H
#define WIRE_H

#include <stdbool.h>
#include <stdint.h>

enum wire_operation { WIRE_REST, WIRE_START, WIRE_BYTE, WIRE_STOP };

struct wire {
    /* In cycles of the core: half clocks, data after the fall of the clock, data before its rise. */
    uint64_t low, high, hold, set_up;

    enum wire_operation operation;
    unsigned phase, bit, shift;
    bool owns_bus, sends, low_sda, low_scl;
    uint64_t next_at, fell_at, free_at;

    /* When an operation is over: */
    bool done, acknowledged, lost;
    uint8_t byte;
};

void wire_start(struct wire *);
void wire_send(struct wire *, uint8_t byte);
void wire_receive(struct wire *, bool acknowledge);
void wire_stop(struct wire *);

/* Lets go of the lines in the middle of what it does. */
void wire_drop(struct wire *);

uint64_t wire_due(const struct wire *);
void wire_step(struct wire *);

#endif
