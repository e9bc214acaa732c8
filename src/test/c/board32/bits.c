#include "bits.h"

#include "lines.h"
#include "machine.h"

/* How often a held line is looked at. */
#define LOOK_NS 500

static void begin(struct bits *bits, enum bits_operation operation)
{
    bits->operation = operation;
    bits->phase = 0;
    bits->done = bits->lost = false;
    bits->next_at = machine_cycle();
}

void bits_start(struct bits *bits)
{
    begin(bits, BITS_START);
}

void bits_stop(struct bits *bits)
{
    begin(bits, BITS_STOP);
}

/* Nine bits; ones where the other side speaks. */
static void begin_byte(struct bits *bits, unsigned shift, bool sends)
{
    begin(bits, BITS_BYTE);
    bits->shift = shift;
    bits->sends = sends;
    bits->bit = 0;
}

void bits_send(struct bits *bits, uint8_t byte)
{
    begin_byte(bits, (unsigned)byte << 1 | 1u, true);
}

void bits_receive(struct bits *bits, bool acknowledge)
{
    begin_byte(bits, 0x1FEu | (acknowledge ? 0 : 1), false);
}

void bits_answer(struct bits *bits, bool acknowledge)
{
    bits->shift = (bits->shift & ~(1u << 8)) | (acknowledge ? 0 : 1u << 8);
}

void bits_drop(struct bits *bits)
{
    begin(bits, BITS_REST);
    bits->low_sda = bits->low_scl = bits->owns_bus = false;
}

uint64_t bits_due(const struct bits *bits)
{
    return bits->operation == BITS_REST || bits->done ? NEVER : bits->next_at;
}

static void finish(struct bits *bits)
{
    bits->operation = BITS_REST;
    bits->done = true;
}

static void after(struct bits *bits, uint64_t cycles)
{
    bits->next_at = machine_cycle() + cycles;
    ++bits->phase;
}

static void look_again(struct bits *bits)
{
    bits->next_at = machine_cycle() + machine_cycles_in(LOOK_NS);
}

/* The clock is let go when the low half and the set-up of the data are over. */
static uint64_t until_rise(const struct bits *bits)
{
    uint64_t earliest = bits->fell_at + bits->low;
    uint64_t set_up = machine_cycle() + bits->set_up;

    return (earliest > set_up ? earliest : set_up) - machine_cycle();
}

static void pull_clock(struct bits *bits)
{
    bits->low_scl = true;
    bits->fell_at = machine_cycle();
}

/* Bus free time and set-up by the low half, hold by the high half: RM0091, 26.4.9, "SCLL", "SCLH". */
static void step_start(struct bits *bits)
{
    if (bits->phase == 0) {
        uint64_t wait = bits->owns_bus ? until_rise(bits) : 0;

        bits->low_sda = false;
        if (!bits->owns_bus && bits->free_at > machine_cycle()) {
            wait = bits->free_at - machine_cycle();
        }
        after(bits, wait);
    } else if (bits->phase == 1) {
        bits->low_scl = false;
        after(bits, 1);
    } else if (bits->phase == 2) {
        if (!lines_sda() || !lines_scl()) {
            look_again(bits); /* Waits for a free bus. */
            return;
        }
        after(bits, bits->owns_bus ? bits->low : 1);
    } else if (bits->phase == 3) {
        bits->low_sda = true;
        after(bits, bits->high);
    } else {
        pull_clock(bits);
        bits->owns_bus = true;
        finish(bits);
    }
}

static void step_byte(struct bits *bits)
{
    if (bits->phase == 0) {
        after(bits, bits->hold);
    } else if (bits->phase == 1) {
        bits->low_sda = (bits->shift & 0x100) == 0;
        after(bits, until_rise(bits));
    } else if (bits->phase == 2) {
        bits->low_scl = false;
        after(bits, 0);
    } else if (bits->phase == 3) {
        if (!lines_scl()) {
            look_again(bits); /* The sensor holds the clock. */
            return;
        }
        after(bits, bits->high);
    } else {
        bits->lost = bits->lost || (bits->sends && bits->bit < 8 && (bits->shift & 0x100) != 0 &&
                                    !lines_sda());
        bits->shift = bits->shift << 1 | (lines_sda() ? 1u : 0);
        pull_clock(bits);
        bits->phase = 0;
        bits->next_at = machine_cycle() + 1;
        if (++bits->bit == 9) {
            bits->byte = (uint8_t)(bits->shift >> 1);
            bits->acknowledged = (bits->shift & 1) == 0;
            finish(bits);
        }
    }
}

static void step_stop(struct bits *bits)
{
    if (bits->phase == 0) {
        after(bits, bits->hold);
    } else if (bits->phase == 1) {
        bits->low_sda = true;
        after(bits, until_rise(bits));
    } else if (bits->phase == 2) {
        bits->low_scl = false;
        after(bits, 0);
    } else if (bits->phase == 3) {
        if (!lines_scl()) {
            look_again(bits);
            return;
        }
        after(bits, bits->high);
    } else {
        bits->low_sda = bits->owns_bus = false;
        bits->free_at = machine_cycle() + bits->low;
        finish(bits);
    }
}

void bits_step(struct bits *bits)
{
    if (bits->operation == BITS_START) {
        step_start(bits);
    } else if (bits->operation == BITS_BYTE) {
        step_byte(bits);
    } else {
        step_stop(bits);
    }
}
