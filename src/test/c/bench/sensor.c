#include "sensor.h"

#include <string.h>

enum state { IDLE, ADDRESS, RECEIVE, SEND };

static uint8_t own_address;
static uint64_t valid_after, stretch_for;

static uint8_t frame[FRAME_MOST];
static unsigned frame_bytes, sent;
static uint8_t asked[FRAME_MOST];
static unsigned asked_bytes;
static bool deaf, refuses, holds_data, holds_clock;

static enum state state = IDLE;
static unsigned bits;
static uint8_t byte;
static bool acknowledged, reads;

static bool old_sda = true, old_scl = true;
static bool pulls, will_pull, stretching;
static uint64_t pull_at, stretch_until;

/* When the last byte that was written to it was over, the last START, and the time between them. */
static uint64_t asked_at, started_at, waited;

void sensor_begin(uint8_t address, uint64_t valid_ns)
{
    own_address = address;
    valid_after = valid_ns;
}

void sensor_stretch(uint64_t ns)
{
    stretch_for = ns;
}

void sensor_frame(const uint8_t *bytes, unsigned count)
{
    memcpy(frame, bytes, count);
    frame_bytes = count;
}

void sensor_mood(bool deaf_now, bool refuses_now)
{
    asked_bytes = 0;
    waited = 0;
    deaf = deaf_now;
    refuses = refuses_now;
}

void sensor_stuck_in_byte(void)
{
    state = SEND;
    byte = 0;
    bits = 3;
    sent = frame_bytes;
    pulls = true;
    will_pull = true;
}

void sensor_hold(bool data, bool clock)
{
    holds_data = data;
    holds_clock = clock;
}

static void pull_later(uint64_t ns, bool low)
{
    will_pull = low;
    pull_at = ns + valid_after;
}

static void send_bit(uint64_t ns)
{
    pull_later(ns, (byte & (0x80 >> bits)) == 0);
}

static void next_byte(uint64_t ns)
{
    byte = sent < frame_bytes ? frame[sent] : 0xFF;
    ++sent;
    bits = 0;
    send_bit(ns);
}

/* Eight bits are in; the ninth clock is for the answer. */
static bool answers(void)
{
    if (state == RECEIVE) {
        if (asked_bytes < FRAME_MOST) {
            asked[asked_bytes++] = byte;
        }
        return !refuses;
    }
    reads = (byte & 1) != 0;
    return byte >> 1 == own_address && !deaf;
}

static void clock_fell(uint64_t ns)
{
    if (state == IDLE) {
        pull_later(ns, false);
    } else if (state == SEND) {
        if (bits < 8) {
            send_bit(ns);
        } else if (bits == 8) {
            pull_later(ns, false);
        } else if (acknowledged) {
            next_byte(ns);
        } else {
            state = IDLE;
            pull_later(ns, false);
        }
    } else if (bits == 8) {
        acknowledged = answers();
        pull_later(ns, acknowledged);
    } else if (bits == 9) {
        bits = 0;
        pull_later(ns, false);
        if (state == RECEIVE) {
            asked_at = ns;
        }
        if (!acknowledged) {
            state = IDLE;
        } else if (state == ADDRESS && reads) {
            waited = asked_bytes != 0 ? started_at - asked_at : 0;
            state = SEND;
            sent = 0;
            next_byte(ns);
        } else {
            state = RECEIVE;
        }
        stretching = acknowledged && stretch_for != 0;
        stretch_until = ns + stretch_for;
    }
}

static void clock_rose(bool sda)
{
    if (state == SEND) {
        if (bits == 8) {
            acknowledged = !sda;
        }
        ++bits;
    } else if (state != IDLE) {
        if (bits < 8) {
            byte = (uint8_t)(byte << 1 | (sda ? 1 : 0));
        }
        ++bits;
    }
}

void sensor_see(uint64_t ns, bool sda, bool scl)
{
    if (scl && old_scl && sda != old_sda) {
        state = sda ? IDLE : ADDRESS;
        started_at = ns;
        bits = 0;
        will_pull = false;
        pulls = false;
    } else if (scl != old_scl) {
        if (scl) {
            clock_rose(sda);
        } else {
            clock_fell(ns);
        }
    }
    if (pulls != will_pull && ns >= pull_at) {
        pulls = will_pull;
    }
    if (stretching && ns >= stretch_until) {
        stretching = false;
    }
    old_sda = sda;
    old_scl = scl;
}

bool sensor_is_calm(void)
{
    return pulls == will_pull && !stretching;
}

bool sensor_stretches(void)
{
    return stretching;
}

bool sensor_pulls_sda(void)
{
    return pulls || holds_data;
}

bool sensor_pulls_scl(void)
{
    return stretching || holds_clock;
}

uint64_t sensor_waited(void)
{
    return waited;
}

unsigned sensor_asked(const uint8_t **bytes)
{
    *bytes = asked;
    return asked_bytes;
}
