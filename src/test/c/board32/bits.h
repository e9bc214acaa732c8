/* The part of a two-wire controller that moves the lines: conditions and bytes, by its times. */
#ifndef BITS_H
#define BITS_H

#include <stdbool.h>
#include <stdint.h>

enum bits_operation { BITS_REST, BITS_START, BITS_BYTE, BITS_STOP };

struct bits {
    /* In cycles of the core: half clocks, data after the fall of the clock, data before its rise. */
    uint64_t low, high, hold, set_up;

    enum bits_operation operation;
    unsigned phase, bit, shift;
    bool owns_bus, sends, low_sda, low_scl;
    uint64_t next_at, fell_at, free_at;

    /* When an operation is over: */
    bool done, acknowledged, lost;
    uint8_t byte;
};

void bits_start(struct bits *);
void bits_send(struct bits *, uint8_t byte);
void bits_receive(struct bits *, bool acknowledge);
void bits_stop(struct bits *);

/* What is answered to a byte that is received, up to the ninth bit. */
void bits_answer(struct bits *, bool acknowledge);

/* Lets go of the lines in the middle of what it does. */
void bits_drop(struct bits *);

uint64_t bits_due(const struct bits *);
void bits_step(struct bits *);

#endif
