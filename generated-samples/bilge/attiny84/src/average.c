/* SPDX-License-Identifier: 0BSD */
/*
 * The average over successive readings, as a sum: nothing is divided.
 *
 * bilge watch, for ATtiny84. Written by ullage from a loop file: to change
 * a number, change it there and emit again.
 */
#include "average.h"

static value_t average_window[AVERAGE_READINGS];
static uint8_t average_at;
static bool average_primed;

/* The value that has at most half of the window below it, and at most half above it. */
static value_t average_middle(void)
{
    uint8_t half = fixed_u8(AVERAGE_READINGS / 2);
    const value_t *candidate = average_window;

    for (;; ++candidate) {
        uint8_t below = 0;
        uint8_t above = 0;
        uint8_t left = fixed_u8(AVERAGE_READINGS);
        const value_t *other = average_window;

        do {
            if (*other < *candidate) {
                ++below;
            }
            if (*other > *candidate) {
                ++above;
            }
            ++other;
        } while (--left != 0);
        if (below <= half && above <= half) {
            return *candidate;
        }
    }
}

sum_t average_add(value_t value)
{
    uint8_t times = average_primed ? 1 : fixed_u8(AVERAGE_READINGS);

    average_primed = true;
    do {
        average_window[average_at] = value;
        if (++average_at == fixed_u8(AVERAGE_READINGS)) {
            average_at = 0;
        }
    } while (--times != 0);
    return (sum_t)average_middle();
}
