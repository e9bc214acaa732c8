/* SPDX-License-Identifier: 0BSD */
/*
 * The sensor on its bus; it does not forgive a wrong step.
 *
 * cold-store guard, for STM32F030F4. Written by ullage from a loop file: to change
 * a number, change it there and emit again.
 */
#include "../bus/bus.h"
#include "world.h"

#define SAMPLE_CHECK (LOOP_CHECK == CHECK_OF_SAMPLE)
#define FRAME_CHECK (LOOP_CHECK == CHECK_OF_FRAME)
#define FRAME_LENGTH \
    (LOOP_SKIP_BYTES + LOOP_SAMPLES * (LOOP_SAMPLE_BYTES + SAMPLE_CHECK) + FRAME_CHECK)

bool bus_fault;

static const uint8_t ask[] = LOOP_ASK;

static enum { FREE, ASKING, ANSWERING } state;
static int asked;
static unsigned long asked_at;
static uint8_t frame[FRAME_LENGTH];
static int length;
static int given;

static void send(unsigned byte)
{
    frame[length++] = (uint8_t)byte;
}

/* The remainder of the bytes, as a polynomial over two elements, by long division. */
static unsigned remainder_of(const uint8_t *bytes, int count)
{
    unsigned remainder = LOOP_CHECK_INIT;
    int bit;

    for (; count > 0; --count) {
        remainder ^= *bytes++;
        for (bit = 0; bit < 8; ++bit) {
            remainder = remainder << 1 ^ ((remainder & 0x80) != 0 ? 0x100 | LOOP_CHECK_POLY : 0);
        }
    }
    return remainder;
}

/* A sample as the sensor sends it; the bits that do not count are noise. */
static void send_sample(int64_t raw)
{
    uint64_t counts = ((uint64_t)1 << LOOP_RAW_BITS) - 1;
    uint64_t noise = (uint64_t)world_random(0, UINT32_MAX) & ~(counts << LOOP_SHIFT);
    uint64_t word = ((uint64_t)raw & counts) << LOOP_SHIFT | noise;
    int first = length;
    int i;

    for (i = 0; i < LOOP_SAMPLE_BYTES; ++i) {
        int place = LOOP_BIG_ENDIAN ? LOOP_SAMPLE_BYTES - 1 - i : i;

        send((unsigned)(word >> (8 * place)) & 0xFF);
    }
    if (SAMPLE_CHECK) {
        send(remainder_of(&frame[first], LOOP_SAMPLE_BYTES));
    }
}

static void make_frame(void)
{
    int i;

    length = 0;
    given = 0;
    for (i = 0; i < LOOP_SKIP_BYTES; ++i) {
        send((unsigned)world_random(0, 255));
    }
    for (i = 0; i < LOOP_SAMPLES; ++i) {
        send_sample(world.raw[i]);
    }
    if (FRAME_CHECK) {
        send(remainder_of(frame, length));
    }
    if (world.spoiled) {
        int first = FRAME_CHECK ? 0 : LOOP_SKIP_BYTES;

        frame[world_random(first, FRAME_LENGTH - 1)] ^= (uint8_t)(1u << world_random(0, 7));
    }
}

/* Between asking and fetching: a repeated START or a STOP, and time. */
static void may_answer(void)
{
    double waited = ((double)(world.ticks - asked_at) - 1) * LOOP_TICK_MS;

    if (asked != LOOP_ASK_BYTES) {
        world_fail("the sensor was asked %d bytes instead of %d", asked, LOOP_ASK_BYTES);
    }
    if (LOOP_ASK_BYTES > 0 && state != (LOOP_RESTART ? ASKING : FREE)) {
        world_fail("there must be a %s between asking and fetching",
                   LOOP_RESTART ? "repeated START" : "STOP");
    }
    if (LOOP_ASK_BYTES > 0 && LOOP_WAIT_MS > 0 && waited < LOOP_WAIT_MS - 1e-6) {
        world_fail("fetched after %g ms, but the sensor needs %d ms", waited, LOOP_WAIT_MS);
    }
    make_frame();
    state = ANSWERING;
}

static void take_ask(uint8_t byte)
{
    if (asked >= LOOP_ASK_BYTES || byte != ask[asked]) {
        world_fail("byte %d of the question is wrong", asked + 1);
    }
    ++asked;
    asked_at = world.ticks;
}

static uint8_t answer(void)
{
    if (state != ANSWERING || given >= length) {
        world_fail("byte %d was fetched of a frame of %d", given + 1, length);
    }
    return frame[given++];
}

void bus_begin(void)
{
    if (state != FREE) {
        world_fail("the last transaction has no STOP");
    }
    bus_fault = false;
    asked = 0;
}

void bus_start(uint8_t address)
{
    if (world.absent) {
        bus_fault = true;
    }
    if (bus_fault) {
        return;
    }
    if (address >> 1 != LOOP_ADDRESS) {
        world_fail("address 0x%02X instead of 0x%02X", (unsigned)address >> 1, LOOP_ADDRESS);
    }
    if ((address & 1) != 0) {
        may_answer();
    } else if (state == FREE) {
        state = ASKING;
    } else {
        world_fail("asked twice");
    }
}

void bus_put(uint8_t byte)
{
    if (bus_fault) {
        return;
    }
    if (state != ASKING) {
        world_fail("a byte was sent without a START");
    }
    take_ask(byte);
}

uint8_t bus_get(uint8_t acknowledge)
{
    uint8_t byte;

    if (bus_fault) {
        return 0;
    }
    byte = answer();
    if ((acknowledge == BUS_LAST) != (given == length)) {
        world_fail("byte %d of %d was answered as if it were %s", given, length,
                   acknowledge == BUS_LAST ? "the last" : "not the last");
    }
    return byte;
}

void bus_stop(void)
{
    if (!bus_fault && state == ANSWERING && given != length) {
        world_fail("STOP after %d of %d bytes", given, length);
    }
    state = FREE;
}
