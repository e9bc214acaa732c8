#include "wire.h"

#include "lines.h"
#include "machine.h"

/* How often a held line is looked at. */
#define LOOK_NS 500

static void begin(struct wire *wire, enum wire_operation operation)
{
    wire->operation = operation;
    wire->phase = 0;
    wire->done = wire->lost = false;
    wire->next_at = machine_cycle();
}

void wire_start(struct wire *wire)
{
    begin(wire, WIRE_START);
}

void wire_stop(struct wire *wire)
{
    begin(wire, WIRE_STOP);
}

/* Nine bits; ones where the other side speaks. */
static void begin_byte(struct wire *wire, unsigned shift, bool sends)
{
    begin(wire, WIRE_BYTE);
    wire->shift = shift;
    wire->sends = sends;
    wire->bit = 0;
}

void wire_send(struct wire *wire, uint8_t byte)
{
    begin_byte(wire, (unsigned)byte << 1 | 1u, true);
}

void wire_receive(struct wire *wire, bool acknowledge)
{
    begin_byte(wire, 0x1FEu | (acknowledge ? 0 : 1), false);
}

void wire_drop(struct wire *wire)
{
    begin(wire, WIRE_REST);
    wire->low_sda = wire->low_scl = wire->owns_bus = false;
}

uint64_t wire_due(const struct wire *wire)
{
    return wire->operation == WIRE_REST || wire->done ? NEVER : wire->next_at;
}

static void finish(struct wire *wire)
{
    wire->operation = WIRE_REST;
    wire->done = true;
}

static void after(struct wire *wire, uint64_t cycles)
{
    wire->next_at = machine_cycle() + cycles;
    ++wire->phase;
}

static void look_again(struct wire *wire)
{
    wire->next_at = machine_cycle() + machine_cycles_in(LOOK_NS);
}

/* The clock is let go when the low half and the set-up of the data are over. */
static uint64_t until_rise(const struct wire *wire)
{
    uint64_t earliest = wire->fell_at + wire->low;
    uint64_t set_up = machine_cycle() + wire->set_up;

    return (earliest > set_up ? earliest : set_up) - machine_cycle();
}

static void pull_clock(struct wire *wire)
{
    wire->low_scl = true;
    wire->fell_at = machine_cycle();
}

/* Bus free time and set-up by the low half, hold by the high half: RM0091, 26.4.9, "SCLL", "SCLH". */
static void step_start(struct wire *wire)
{
    if (wire->phase == 0) {
        uint64_t wait = wire->owns_bus ? until_rise(wire) : 0;

        wire->low_sda = false;
        if (!wire->owns_bus && wire->free_at > machine_cycle()) {
            wait = wire->free_at - machine_cycle();
        }
        after(wire, wait);
    } else if (wire->phase == 1) {
        wire->low_scl = false;
        after(wire, wire->owns_bus ? wire->low : 1);
    } else if (wire->phase == 2) {
        if (!lines_sda() || !lines_scl()) {
            look_again(wire); /* Waits for a free bus. */
            return;
        }
        wire->low_sda = true;
        after(wire, wire->high);
    } else {
        pull_clock(wire);
        wire->owns_bus = true;
        finish(wire);
    }
}

static void step_byte(struct wire *wire)
{
    if (wire->phase == 0) {
        after(wire, wire->hold);
    } else if (wire->phase == 1) {
        wire->low_sda = (wire->shift & 0x100) == 0;
        after(wire, until_rise(wire));
    } else if (wire->phase == 2) {
        wire->low_scl = false;
        after(wire, 0);
    } else if (wire->phase == 3) {
        if (!lines_scl()) {
            look_again(wire); /* The sensor holds the clock. */
            return;
        }
        after(wire, wire->high);
    } else {
        wire->lost = wire->lost || (wire->sends && wire->bit < 8 && (wire->shift & 0x100) != 0 &&
                                    !lines_sda());
        wire->shift = wire->shift << 1 | (lines_sda() ? 1u : 0);
        pull_clock(wire);
        wire->phase = 0;
        wire->next_at = machine_cycle() + 1;
        if (++wire->bit == 9) {
            wire->byte = (uint8_t)(wire->shift >> 1);
            wire->acknowledged = (wire->shift & 1) == 0;
            finish(wire);
        }
    }
}

static void step_stop(struct wire *wire)
{
    if (wire->phase == 0) {
        after(wire, wire->hold);
    } else if (wire->phase == 1) {
        wire->low_sda = true;
        after(wire, until_rise(wire));
    } else if (wire->phase == 2) {
        wire->low_scl = false;
        after(wire, 0);
    } else if (wire->phase == 3) {
        if (!lines_scl()) {
            look_again(wire);
            return;
        }
        after(wire, wire->high);
    } else {
        wire->low_sda = wire->owns_bus = false;
        wire->free_at = machine_cycle() + wire->low;
        finish(wire);
    }
}

void wire_step(struct wire *wire)
{
    if (wire->operation == WIRE_START) {
        step_start(wire);
    } else if (wire->operation == WIRE_BYTE) {
        step_byte(wire);
    } else {
        step_stop(wire);
    }
}
