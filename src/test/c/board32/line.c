#include "line.h"

#include <inttypes.h>
#include <stdio.h>
#include <string.h>

#include "machine.h"

/* START, eight bits, STOP. */
#define BITS 10

static void begin(struct line *line, double bit_cycles)
{
    line->end_at = machine_cycle() + (uint64_t)(BITS * bit_cycles);
}

void line_send(struct line *line, uint8_t character, double bit_cycles)
{
    line->characters[line->count++] = character;
    if (line->count == 1) {
        begin(line, bit_cycles);
    }
}

uint64_t line_due(const struct line *line)
{
    return line->count != 0 ? line->end_at : NEVER;
}

void line_end(struct line *line, double bit_cycles)
{
    printf("serial %" PRIu64 " %u %.0f\n", machine_ns() / 1000, line->characters[0],
           bit_cycles * 1e9 / machine_hz());
    memmove(line->characters, line->characters + 1, sizeof line->characters - 1);
    --line->count;
    begin(line, bit_cycles);
}
