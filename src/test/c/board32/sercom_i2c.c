/*
 * A SERCOM as a two-wire master: data sheet of SAM D21 (DS40001882), "SERCOM I2C"; the same in D10 and
 * D11, and with registers at other places in D20 (DS60001504), which `old=1` stands for. No smart
 * mode, no time-outs, no slave.
 */
#include <string.h>

#include "bits.h"
#include "lines.h"
#include "models.h"
#include "samd.h"

enum name { CTRLA, CTRLB, BAUD, INTENCLR, INTENSET, INTFLAG, STATUS, SYNC, ADDR, DATA, NAMES };
enum { SWRST = 1u << 0, ENABLE = 1u << 1, MODE = 7u << 2, MASTER = 5u << 2 };
enum { CMD_RESTART = 1, CMD_READ = 2, CMD_STOP = 3, ACKACT = 1u << 18 };
enum { MB = 1u << 0, SB = 1u << 1 };
enum { BUSERR = 1u << 0, ARBLOST = 1u << 1, RXNACK = 1u << 2 };
enum { UNKNOWN = 0, IDLE = 1, OWNER = 2, BUSY = 3 };
enum { OLD_SYNCBUSY = 0x8000, SYSOP = 4 };

/* Not given as a number; some clocks on either side. */
#define SYNC_CYCLES 6

static const uint8_t places[2][NAMES] = {
    {0x00, 0x04, 0x0C, 0x14, 0x16, 0x18, 0x1A, 0x1C, 0x24, 0x28},
    {0x00, 0x04, 0x0A, 0x0C, 0x0D, 0x0E, 0x10, 0xFF, 0x14, 0x18},
};
static const uint8_t widths[2][NAMES] = {
    {4, 4, 4, 1, 1, 1, 2, 4, 4, 1},
    {4, 4, 2, 1, 1, 1, 2, 0, 1, 1},
};

enum activity { REST, STARTING, ADDRESSING, SENDING, RECEIVING, ANSWERING, STOPPING };

struct i2c {
    struct bits bits;
    enum activity activity;
    uint32_t control, baud, enabled, flags, status;
    unsigned state, command;
    uint8_t address, data;
    uint64_t synced_at;
};

/* "Clock Generation": BAUDLOW + 5 and BAUD + 5 clocks; without BAUDLOW both are BAUD + 5. */
static void set_times(struct device *device)
{
    struct i2c *i2c = device->state;
    uint32_t high = i2c->baud & 0xFF, low = i2c->baud >> 8 & 0xFF;
    double cycles = machine_hz() / samd_clock(device);

    if (high == 0 && low == 0) {
        machine_complain("neither BAUD nor BAUDLOW is set", device->base);
    }
    i2c->bits.low = (uint64_t)(((low == 0 ? high : low) + 5) * cycles);
    i2c->bits.high = (uint64_t)((high + 5) * cycles);
    /* SDAHOLD: at least 50, 300 and 400 ns. */
    i2c->bits.hold = machine_cycles_in((uint64_t[]){0, 50, 300, 400}[i2c->control >> 20 & 3]);
    i2c->bits.set_up = i2c->bits.low / 2;
}

static void ask(struct i2c *i2c, uint32_t flag)
{
    i2c->flags |= flag;
    i2c->activity = REST;
}

static void start(struct device *device)
{
    struct i2c *i2c = device->state;

    set_times(device);
    i2c->flags = 0;
    i2c->activity = STARTING;
    bits_start(&i2c->bits);
}

static void receive(struct i2c *i2c)
{
    i2c->activity = RECEIVING;
    bits_receive(&i2c->bits, true);
}

static void lose(struct i2c *i2c)
{
    bits_drop(&i2c->bits);
    i2c->status |= ARBLOST;
    i2c->state = BUSY;
    ask(i2c, MB);
}

static void over(struct i2c *i2c)
{
    i2c->bits.done = false;
    if (i2c->bits.lost) {
        lose(i2c);
    } else if (i2c->activity == STARTING) {
        i2c->state = OWNER;
        i2c->activity = ADDRESSING;
        bits_send(&i2c->bits, i2c->address);
    } else if (i2c->activity == STOPPING) {
        i2c->state = IDLE;
        i2c->activity = REST;
    } else if (i2c->activity == ANSWERING) {
        if (i2c->command == CMD_READ) {
            receive(i2c);
        } else {
            i2c->activity = STOPPING;
            bits_stop(&i2c->bits);
        }
    } else {
        i2c->status = i2c->bits.acknowledged ? i2c->status & ~(uint32_t)RXNACK : i2c->status | RXNACK;
        if (i2c->activity == ADDRESSING && (i2c->address & 1) != 0 && i2c->bits.acknowledged) {
            receive(i2c);
        } else {
            ask(i2c, MB);
        }
    }
}

/* Eight bits have come in, and the clock is held until the answer to them is known. */
static bool holds(const struct i2c *i2c)
{
    return (i2c->flags & SB) != 0;
}

static uint64_t due(const struct device *device)
{
    const struct i2c *i2c = device->state;

    return holds(i2c) ? NEVER : bits_due(&i2c->bits);
}

static void step(struct device *device)
{
    struct i2c *i2c = device->state;

    bits_step(&i2c->bits);
    if (i2c->activity == RECEIVING && i2c->bits.bit == 8 && i2c->bits.phase == 0) {
        i2c->data = (uint8_t)i2c->bits.shift;
        i2c->flags |= SB;
    } else if (i2c->bits.done) {
        over(i2c);
    }
}

static void disable(struct i2c *i2c)
{
    bits_drop(&i2c->bits);
    i2c->activity = REST;
    i2c->flags = 0;
    i2c->state = UNKNOWN;
}

static void write_control(struct device *device, uint32_t value)
{
    struct i2c *i2c = device->state;

    if ((value & SWRST) != 0) {
        disable(i2c);
        i2c->control = i2c->baud = i2c->enabled = i2c->status = 0;
        return;
    }
    if ((value & MODE) != MASTER) {
        machine_complain("the SERCOM is no two-wire master", device->base);
    }
    if ((value & ENABLE) == 0) {
        disable(i2c);
    }
    i2c->control = value;
}

/* The answer of the ninth bit, then what the command says. */
static void answer(struct i2c *i2c, bool acknowledges)
{
    i2c->flags = 0;
    i2c->activity = ANSWERING;
    bits_answer(&i2c->bits, acknowledges);
    i2c->bits.next_at = machine_cycle() + 1;
}

static void write_command(struct device *device, uint32_t value)
{
    struct i2c *i2c = device->state;

    i2c->command = value >> 16 & 3;
    if (i2c->flags == 0 || i2c->command == CMD_RESTART || i2c->command == 0) {
        machine_complain("a command that cannot be given now", device->base);
    } else if (i2c->state != OWNER) {
        i2c->flags = 0;
    } else if (holds(i2c)) {
        answer(i2c, (value & ACKACT) == 0);
    } else if (i2c->command == CMD_STOP) {
        i2c->flags = 0;
        i2c->activity = STOPPING;
        bits_stop(&i2c->bits);
    } else {
        machine_complain("a byte is to be read, but a byte was sent", device->base);
    }
}

static void write_address(struct device *device, uint32_t value)
{
    struct i2c *i2c = device->state;

    if (i2c->state == UNKNOWN || holds(i2c) || (i2c->control & ENABLE) == 0 || i2c->activity != REST) {
        machine_complain("an address is written where no START can be", device->base);
        return;
    }
    i2c->address = (uint8_t)value;
    start(device);
}

static void write_data(struct device *device, uint32_t value)
{
    struct i2c *i2c = device->state;

    if (i2c->state != OWNER || (i2c->flags & MB) == 0) {
        machine_complain("a byte is written where none can be sent", device->base);
        return;
    }
    i2c->flags = 0;
    i2c->activity = SENDING;
    bits_send(&i2c->bits, (uint8_t)value);
}

static enum name name_of(const struct device *device, uint32_t offset, unsigned bytes)
{
    uint32_t old = device_option(device, "old", 0);

    for (unsigned i = 0; i < NAMES; i++) {
        if (places[old][i] == offset && widths[old][i] == bytes) {
            return i;
        }
    }
    machine_complain("an access that the SERCOM does not know", device->base + offset);
    return NAMES;
}

static void write(struct device *device, uint32_t offset, uint32_t value, unsigned bytes)
{
    struct i2c *i2c = device->state;
    enum name name = name_of(device, offset, bytes);
    bool syncs = name == CTRLA || name == CTRLB || name == STATUS || name == ADDR || name == DATA;

    (void)samd_clock(device);
    if (syncs && machine_cycle() < i2c->synced_at) {
        machine_complain("the SERCOM is written while it is busy", device->base + offset);
    }
    i2c->synced_at = syncs ? machine_cycle() + SYNC_CYCLES : i2c->synced_at;
    switch (name) {
    case CTRLA:
        write_control(device, value);
        break;
    case CTRLB:
        write_command(device, value);
        break;
    case BAUD:
        if ((i2c->control & ENABLE) != 0) {
            machine_complain("BAUD is written while ENABLE is set", device->base + offset);
        }
        i2c->baud = value;
        break;
    case INTENCLR:
        i2c->enabled &= ~value;
        break;
    case INTENSET:
        i2c->enabled |= value;
        break;
    case STATUS:
        if (value != IDLE << 4) {
            machine_complain("a bus state is written that cannot be", device->base + offset);
        }
        i2c->state = IDLE;
        break;
    case ADDR:
        write_address(device, value);
        break;
    case DATA:
        write_data(device, value);
        break;
    default:
        break;
    }
}

static uint32_t read(struct device *device, uint32_t offset, unsigned bytes)
{
    const struct i2c *i2c = device->state;
    bool busy = machine_cycle() < i2c->synced_at;
    bool old = device_option(device, "old", 0) != 0;

    if (busy) {
        machine_read_moving();
    }
    switch (name_of(device, offset, bytes)) {
    case CTRLA:
        return i2c->control;
    case INTFLAG:
        return i2c->flags;
    case STATUS:
        return i2c->status | i2c->state << 4 | (old && busy ? OLD_SYNCBUSY : 0);
    case SYNC:
        return busy ? SYSOP : 0;
    case DATA:
        return i2c->data;
    default:
        return 0;
    }
}

static unsigned asks(const struct device *device)
{
    const struct i2c *i2c = device->state;

    return (i2c->flags & i2c->enabled) != 0;
}

/* Pulls low, and never drives high. */
static bool drives(const struct device *device, const char *signal, bool *high)
{
    const struct i2c *i2c = device->state;

    *high = false;
    return (i2c->control & ENABLE) != 0 &&
           (strcmp(signal, "sda") == 0 ? i2c->bits.low_sda : i2c->bits.low_scl);
}

const struct model sercom_i2c_model = {
    .kind = "sercom_i2c", .state_bytes = sizeof(struct i2c), .read_bytes = read, .write_bytes = write,
    .due = due, .step = step, .asks = asks, .drives = drives};
