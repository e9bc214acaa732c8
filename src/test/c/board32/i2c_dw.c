/*
 * The two-wire controller of the RP2040 (DW_apb_i2c), leading the bus: RP2040 data sheet, 4.3, and the
 * register descriptions of its SVD. Slave mode, 10-bit addresses, DMA and thresholds are left out.
 */
#include <string.h>

#include "bits.h"
#include "lines.h"
#include "models.h"

enum { CON = 0x00, TAR = 0x04, DATA_CMD = 0x10, FS_HCNT = 0x1C, FS_LCNT = 0x20, INTR_STAT = 0x2C,
       INTR_MASK = 0x30, RAW_INTR_STAT = 0x34, CLR_INTR = 0x40, CLR_TX_ABRT = 0x54, CLR_STOP_DET = 0x60,
       ENABLE = 0x6C, STATUS = 0x70, SDA_HOLD = 0x7C, FS_SPKLEN = 0xA0 };
enum { RX_FULL = 1u << 2, TX_EMPTY = 1u << 4, TX_ABRT = 1u << 6, STOP_DET = 1u << 9 };
enum { READ = 1u << 8, STOP = 1u << 9, RESTART = 1u << 10, TX_EMPTY_CTRL = 1u << 8 };

#define DEPTH 16

enum activity { REST, STARTING, ADDRESSING, MOVING, HOLDING, STOPPING };

struct i2c {
    struct bits bits;
    enum activity activity;
    uint32_t registers[0x100 / 4];
    uint32_t sticky, command;
    bool reads;
    uint16_t commands[DEPTH];
    uint8_t received[DEPTH];
    unsigned command_count, received_count;
};

static uint32_t get(const struct i2c *i2c, unsigned offset)
{
    return i2c->registers[offset / 4];
}

static bool is_on(const struct i2c *i2c)
{
    return (get(i2c, ENABLE) & 1) != 0;
}

/* 4.3.14.1: low for LCNT + 1, high for HCNT + SPKLEN + 7 cycles. */
static void set_times(struct i2c *i2c)
{
    i2c->bits.low = get(i2c, FS_LCNT) + 1;
    i2c->bits.high = get(i2c, FS_HCNT) + get(i2c, FS_SPKLEN) + 7;
    i2c->bits.hold = get(i2c, SDA_HOLD) & 0xFFFF;
    i2c->bits.set_up = i2c->bits.low / 2;
}

static void stop(struct i2c *i2c)
{
    i2c->activity = STOPPING;
    bits_stop(&i2c->bits);
}

static void abort_all(struct i2c *i2c)
{
    i2c->sticky |= TX_ABRT;
    i2c->command_count = 0;
}

static void move(struct i2c *i2c)
{
    i2c->activity = MOVING;
    if (i2c->reads) {
        bits_receive(&i2c->bits, (i2c->command & STOP) == 0);
    } else {
        bits_send(&i2c->bits, (uint8_t)i2c->command);
    }
}

/* What the FIFO says; while it is empty the clock is held low. */
static void go_on(struct i2c *i2c)
{
    bool owns = i2c->bits.owns_bus, reads;

    if (i2c->command_count == 0) {
        i2c->activity = owns ? HOLDING : REST;
        return;
    }
    i2c->command = i2c->commands[0];
    memmove(i2c->commands, i2c->commands + 1, sizeof i2c->commands - sizeof i2c->commands[0]);
    --i2c->command_count;
    reads = (i2c->command & READ) != 0;
    if (!owns || (i2c->command & RESTART) != 0 || reads != i2c->reads) {
        i2c->reads = reads;
        set_times(i2c);
        i2c->activity = STARTING;
        bits_start(&i2c->bits);
    } else {
        move(i2c);
    }
}

static void moved(struct device *device)
{
    struct i2c *i2c = device->state;

    if (i2c->reads) {
        if (i2c->received_count == DEPTH) {
            machine_complain("a received byte is lost", device->base);
        } else {
            i2c->received[i2c->received_count++] = i2c->bits.byte;
        }
    } else if (!i2c->bits.acknowledged) {
        abort_all(i2c);
        stop(i2c);
        return;
    }
    if ((i2c->command & STOP) != 0) {
        stop(i2c);
    } else {
        go_on(i2c);
    }
}

static void over(struct device *device)
{
    struct i2c *i2c = device->state;

    i2c->bits.done = false;
    if (i2c->bits.lost) {
        bits_drop(&i2c->bits);
        abort_all(i2c);
        i2c->activity = REST;
    } else if (i2c->activity == STARTING) {
        i2c->activity = ADDRESSING;
        bits_send(&i2c->bits, (uint8_t)(get(i2c, TAR) << 1 | (i2c->reads ? 1u : 0)));
    } else if (i2c->activity == ADDRESSING) {
        if (i2c->bits.acknowledged) {
            move(i2c);
        } else {
            abort_all(i2c);
            stop(i2c);
        }
    } else if (i2c->activity == MOVING) {
        moved(device);
    } else {
        i2c->sticky |= STOP_DET;
        go_on(i2c);
    }
}

static uint64_t due(const struct device *device)
{
    return bits_due(&((const struct i2c *)device->state)->bits);
}

static void step(struct device *device)
{
    struct i2c *i2c = device->state;

    bits_step(&i2c->bits);
    if (i2c->bits.done) {
        over(device);
    }
}

/* With TX_EMPTY_CTRL the byte that was taken last must be through, too. */
static uint32_t raw(const struct i2c *i2c)
{
    bool through = i2c->activity == REST || i2c->activity == HOLDING || i2c->activity == STOPPING;
    bool empty = is_on(i2c) && i2c->command_count == 0 &&
                 (through || (get(i2c, CON) & TX_EMPTY_CTRL) == 0);

    return i2c->sticky | (empty ? TX_EMPTY : 0u) | (i2c->received_count != 0 ? RX_FULL : 0u);
}

static void command(struct device *device, uint32_t value)
{
    struct i2c *i2c = device->state;

    if (!is_on(i2c) || i2c->command_count == DEPTH) {
        machine_complain("a command that cannot be taken", device->base + DATA_CMD);
        return;
    }
    if ((i2c->sticky & TX_ABRT) != 0) {
        return; /* The FIFO is held empty until the abort is cleared. */
    }
    i2c->commands[i2c->command_count++] = (uint16_t)value;
    if (i2c->activity == REST || i2c->activity == HOLDING) {
        go_on(i2c);
    }
}

static void write(struct device *device, uint32_t offset, uint32_t value)
{
    struct i2c *i2c = device->state;

    if (offset == DATA_CMD) {
        command(device, value);
        return;
    }
    if (offset == ENABLE && (value & 1) == 0 && i2c->activity != REST) {
        machine_complain("switched off within a transfer", device->base + offset);
    } else if (offset != ENABLE && offset != INTR_MASK && is_on(i2c)) {
        machine_complain("written while it is switched on", device->base + offset);
        return;
    }
    i2c->registers[offset / 4 & 0x3F] = value;
    if (!is_on(i2c)) {
        i2c->command_count = i2c->received_count = 0;
    }
}

static uint32_t take(struct i2c *i2c)
{
    uint8_t byte = i2c->received[0];

    if (i2c->received_count == 0) {
        return 0;
    }
    memmove(i2c->received, i2c->received + 1, sizeof i2c->received - 1);
    --i2c->received_count;
    return byte;
}

static uint32_t read(struct device *device, uint32_t offset)
{
    struct i2c *i2c = device->state;

    switch (offset) {
    case DATA_CMD:
        return take(i2c);
    case RAW_INTR_STAT:
        return raw(i2c);
    case INTR_STAT:
        return raw(i2c) & get(i2c, INTR_MASK);
    case CLR_INTR:
        i2c->sticky = 0;
        return 0;
    case CLR_TX_ABRT:
        i2c->sticky &= ~(uint32_t)TX_ABRT;
        return 0;
    case CLR_STOP_DET:
        i2c->sticky &= ~(uint32_t)STOP_DET;
        return 0;
    default:
        return get(i2c, offset & 0xFC);
    }
}

static void reset(struct device *device)
{
    ((struct i2c *)device->state)->registers[INTR_MASK / 4] = 0x8FF;
}

static unsigned asks(const struct device *device)
{
    const struct i2c *i2c = device->state;

    return (raw(i2c) & get(i2c, INTR_MASK)) != 0;
}

static bool drives(const struct device *device, const char *signal, bool *high)
{
    const struct i2c *i2c = device->state;

    *high = strcmp(signal, "sda") == 0 ? !i2c->bits.low_sda : !i2c->bits.low_scl;
    /* Only ever to low. */
    return !*high;
}

const struct model i2c_dw_model = {
    .kind = "i2c_dw", .state_bytes = sizeof(struct i2c), .reset = reset, .read = read, .write = write,
    .due = due, .step = step, .asks = asks, .drives = drives};
