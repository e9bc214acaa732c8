/* A line that characters leave on, one after the other: each is logged when its last bit ends. */
#ifndef LINE_H
#define LINE_H

#include <stdbool.h>
#include <stdint.h>

#define LINE_MOST 32

/* The first is on its way, the others wait. */
struct line {
    uint8_t characters[LINE_MOST];
    unsigned count;
    uint64_t end_at;
};

/* Bits last so many cycles of the core. */
void line_send(struct line *, uint8_t character, double bit_cycles);

/* When the character that is on its way ends, and that it does. */
uint64_t line_due(const struct line *);
void line_end(struct line *, double bit_cycles);

#endif
