/*
 * The two-wire controller of the LPC800 series, as a master: UM10601 16.6, UM10800 15.6; LPC84x and LPC80x alike.
 * Slave, monitor, time-outs and DMA are left out.
 */
#include <string.h>

#include "bits.h"
#include "lines.h"
#include "lpc.h"

enum { CFG = 0x00, STAT = 0x04, INTENSET = 0x08, INTENCLR = 0x0C, CLKDIV = 0x14, MSTCTL = 0x20, MSTTIME = 0x24,
       MSTDAT = 0x28 };
enum { MSTEN = 1, PENDING = 1u << 0, ARBLOSS = 1u << 4, STSTPERR = 1u << 6, SLVNOTSTR = 1u << 11 };
enum { CONTINUE = 1, START = 2, STOP = 4 };
enum state { IDLE = 0, RECEIVED = 1, TO_SEND = 2, NO_ADDRESS = 3, NO_DATA = 4 };

enum activity { REST, STARTING, ADDRESSING, SENDING, RECEIVING, ANSWERING, STOPPING };

struct i2c {
    struct bits bits;
    enum activity activity;
    enum state state;
    bool on, pending;
    uint32_t enabled, errors, divider, time, command;
    uint8_t data, address;
};

static void reset(struct device *device)
{
    struct i2c *i2c = device->state;

    i2c->pending = true;
    i2c->time = 0x77;
}

/* "I2C clock divider" and MSTTIME: each half is 2 to 9 of the divided clock. When data moves is not said. */
static void set_times(const struct device *device)
{
    struct i2c *i2c = device->state;
    double tick = lpc_cycles(device, LPC_BUS, i2c->divider + 1);

    i2c->bits.low = (uint64_t)(((i2c->time & 7) + 2) * tick);
    i2c->bits.high = (uint64_t)(((i2c->time >> 4 & 7) + 2) * tick);
    i2c->bits.hold = (uint64_t)(tick / 2);
    i2c->bits.set_up = i2c->bits.low / 2;
}

static void come_to(struct i2c *i2c, enum state state)
{
    i2c->state = state;
    i2c->pending = true;
    i2c->activity = REST;
}

static void start(struct device *device)
{
    struct i2c *i2c = device->state;

    set_times(device);
    i2c->address = i2c->data;
    i2c->activity = STARTING;
    bits_start(&i2c->bits);
}

static void stop(struct i2c *i2c)
{
    i2c->activity = STOPPING;
    bits_stop(&i2c->bits);
}

static void receive(struct i2c *i2c)
{
    i2c->activity = RECEIVING;
    bits_receive(&i2c->bits, true);
}

static void answered(struct device *device)
{
    struct i2c *i2c = device->state;

    if (i2c->command == CONTINUE) {
        receive(i2c);
    } else if (i2c->command == START) {
        start(device);
    } else {
        stop(i2c);
    }
}

static void over(struct device *device)
{
    struct i2c *i2c = device->state;

    i2c->bits.done = false;
    if (i2c->bits.lost) {
        bits_drop(&i2c->bits);
        i2c->errors |= ARBLOSS;
        come_to(i2c, IDLE);
    } else if (i2c->activity == STARTING) {
        i2c->activity = ADDRESSING;
        bits_send(&i2c->bits, i2c->address);
    } else if (i2c->activity == STOPPING) {
        come_to(i2c, IDLE);
    } else if (i2c->activity == ANSWERING) {
        answered(device);
    } else if (!i2c->bits.acknowledged) {
        come_to(i2c, i2c->activity == ADDRESSING ? NO_ADDRESS : NO_DATA);
    } else if (i2c->activity == ADDRESSING && (i2c->address & 1) != 0) {
        receive(i2c);
    } else {
        come_to(i2c, TO_SEND);
    }
}

static bool holds(const struct i2c *i2c)
{
    return i2c->activity == REST && i2c->state == RECEIVED;
}

static uint64_t due(const struct device *device)
{
    const struct i2c *i2c = device->state;

    return holds(i2c) ? NEVER : bits_due(&i2c->bits);
}

/* Eight bits have come in: the clock is held until the answer to them is known. */
static void step(struct device *device)
{
    struct i2c *i2c = device->state;

    bits_step(&i2c->bits);
    if (i2c->activity == RECEIVING && i2c->bits.bit == 8 && i2c->bits.phase == 0) {
        i2c->data = (uint8_t)i2c->bits.shift;
        come_to(i2c, RECEIVED);
    } else if (i2c->bits.done) {
        over(device);
    }
}

static void answer(struct i2c *i2c)
{
    i2c->activity = ANSWERING;
    bits_answer(&i2c->bits, i2c->command == CONTINUE);
    i2c->bits.next_at = machine_cycle() + 1;
}

/* "Only write to this register when the master is pending"; one of its bits, which fits the state. */
static void command(struct device *device, uint32_t value)
{
    struct i2c *i2c = device->state;
    bool fits = value == START || (value == STOP && i2c->state != IDLE) ||
                (value == CONTINUE && (i2c->state == RECEIVED || i2c->state == TO_SEND));

    if (!i2c->on || !i2c->pending || !fits) {
        machine_complain("a command to the master that does not fit its state", device->base + MSTCTL);
        return;
    }
    i2c->command = value;
    i2c->pending = false;
    i2c->errors &= value == CONTINUE ? ~(uint32_t)ARBLOSS : UINT32_MAX;
    if (i2c->state == RECEIVED) {
        answer(i2c);
    } else if (value == START) {
        start(device);
    } else if (value == STOP) {
        stop(i2c);
    } else {
        i2c->activity = SENDING;
        bits_send(&i2c->bits, i2c->data);
    }
}

/* MSTEN off: "the master function is internally reset", its settings are kept. */
static void configure(struct device *device, uint32_t value)
{
    struct i2c *i2c = device->state;

    if ((value & ~(uint32_t)MSTEN) != 0) {
        machine_complain("a function of the two-wire controller that has no model", device->base);
    }
    i2c->on = (value & MSTEN) != 0;
    if (!i2c->on) {
        bits_drop(&i2c->bits);
        come_to(i2c, IDLE);
    }
}

static void write(struct device *device, uint32_t offset, uint32_t value)
{
    struct i2c *i2c = device->state;

    switch (offset) {
    case CFG:
        configure(device, value);
        break;
    case STAT:
        i2c->errors &= ~value;
        break;
    case INTENSET:
        i2c->enabled |= value;
        break;
    case INTENCLR:
        i2c->enabled &= ~value;
        break;
    case CLKDIV:
        i2c->divider = value & 0xFFFF;
        break;
    case MSTCTL:
        command(device, value);
        break;
    case MSTTIME:
        i2c->time = value;
        break;
    case MSTDAT:
        if (!i2c->pending) {
            machine_complain("MSTDAT is written while the master is at work", device->base + offset);
        }
        i2c->data = (uint8_t)value;
        break;
    default:
        machine_complain("a register of the two-wire controller that has no model", device->base + offset);
    }
}

static uint32_t status(const struct i2c *i2c)
{
    return SLVNOTSTR | i2c->errors | (uint32_t)i2c->state << 1 | (i2c->pending ? PENDING : 0);
}

static uint32_t read(struct device *device, uint32_t offset)
{
    const struct i2c *i2c = device->state;

    return offset == STAT ? status(i2c) : offset == MSTDAT ? i2c->data : offset == CFG ? i2c->on
           : offset == INTENSET ? i2c->enabled : 0;
}

static unsigned asks(const struct device *device)
{
    const struct i2c *i2c = device->state;

    return (status(i2c) & i2c->enabled & (PENDING | ARBLOSS | STSTPERR)) != 0;
}

/* High is left to the pull-ups, but a pin that is not an open drain would drive it. */
static bool drives(const struct device *device, const char *signal, bool *high)
{
    const struct i2c *i2c = device->state;

    *high = !(strcmp(signal, "sda") == 0 ? i2c->bits.low_sda : i2c->bits.low_scl);
    return i2c->on;
}

const struct model lpc_i2c_model = {
    .kind = "lpc_i2c", .state_bytes = sizeof(struct i2c), .reset = reset, .read = read, .write = write,
    .due = due, .step = step, .asks = asks, .drives = drives};
