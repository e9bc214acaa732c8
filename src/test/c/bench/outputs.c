#include "outputs.h"

#include <inttypes.h>
#include <stdio.h>

/* A tone of more than 250 Hz has ended when there was no edge for so long. */
#define TONE_GAP_NS 2000000u

static uint64_t tone_began, tone_edge;
static unsigned tone_edges;

static void switch_step(const char *name, bool *old, bool on, uint64_t ns)
{
    if (on != *old) {
        printf("%s %" PRIu64 " %d\n", name, ns / 1000, on);
    }
    *old = on;
}

void outputs_end(void)
{
    if (tone_edges > 0) {
        printf("tone %" PRIu64 " %" PRIu64 " %u\n", tone_began / 1000, tone_edge / 1000,
               tone_edges);
        tone_edges = 0;
    }
}

static void sounder_step(bool high, uint64_t ns)
{
    static bool old;

    if (ns - tone_edge > TONE_GAP_NS) {
        outputs_end();
    }
    if (high != old) {
        if (tone_edges++ == 0) {
            tone_began = ns;
        }
        tone_edge = ns;
    }
    old = high;
}

void outputs_step(bool lamp, bool relay, bool sounder, uint64_t ns)
{
    static bool lit, closed;

    switch_step("lamp", &lit, lamp, ns);
    switch_step("relay", &closed, relay, ns);
    sounder_step(sounder, ns);
}
