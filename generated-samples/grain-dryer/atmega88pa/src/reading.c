/* SPDX-License-Identifier: 0BSD */
/*
 * Takes one frame and reduces it while the bytes come in.
 *
 * grain-dryer bed, for ATmega88PA. Written by ullage from a loop file: to change
 * a number, change it there and emit again.
 */
#include "../bus/bus.h"
#include "pace.h"
#include "reading.h"

raw_t reading_frame[FRAME_SAMPLES];

value_t reading_take(void)
{
    value_t value = 0;
    uint8_t left = fixed_u8(FRAME_SAMPLES);
    raw_t *keep = reading_frame;

    reading_ask();
    do {
        raw_t raw = reading_sample(left == 1 ? BUS_LAST : BUS_MORE);

        *keep++ = raw;
        if (raw > fixed_raw(FRAME_LEVEL)) {
            ++value;
        }
        pace_poll();
    } while (--left != 0);
    bus_stop();
    return value;
}
