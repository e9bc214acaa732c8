/*
 * The two-wire controller with TIMINGR, as a master: RM0091 (STM32F0x0/F0x1/F0x2/F0x8), section 26.
 * The same in STM32G0 (RM0454), C0 (RM0490), L0 (RM0377). Slave mode, SMBus and 10-bit addresses are
 * left out.
 */
#include <string.h>

#include "lines.h"
#include "models.h"
#include "bits.h"

enum { CR1 = 0x00, CR2 = 0x04, TIMINGR = 0x10, ISR = 0x18, ICR = 0x1C, RXDR = 0x24,
       TXDR = 0x28 };
enum { PE = 1u << 0, TXIE = 1u << 1, RXIE = 1u << 2, NACKIE = 1u << 4, STOPIE = 1u << 5,
       TCIE = 1u << 6, ERRIE = 1u << 7, ANFOFF = 1u << 12 };
enum { RD_WRN = 1u << 10, START = 1u << 13, STOP = 1u << 14, RELOAD = 1u << 24, AUTOEND = 1u << 25 };
enum { TXE = 1u << 0, TXIS = 1u << 1, RXNE = 1u << 2, NACKF = 1u << 4, STOPF = 1u << 5, TC = 1u << 6,
       TCR = 1u << 7, BERR = 1u << 8, ARLO = 1u << 9, OVR = 1u << 10, BUSY = 1u << 15 };

/* SADD, RD_WRN, NBYTES: not to be changed while START is set, RM0091, 26.7.2. */
#define TRANSFER (0x3FFu | RD_WRN | 0xFFu << 16)
/* The analogue filter at most: data sheet of STM32F030, "I2C analog filter characteristics". */
#define FILTER_NS 260
/* PE stays low for three clocks of the bus: RM0091, 26.4.6. */
#define OFF_CYCLES 3

enum activity { REST, STARTING, ADDRESSING, SENDING, RECEIVING, STOPPING, WAIT_TX, WAIT_RX, WAIT_NEXT };

struct i2c {
    struct bits bits;
    enum activity activity;
    uint32_t cr1, cr2, timingr, isr;
    uint8_t rxdr, txdr, held;
    unsigned remaining;
    /* When PE was cleared. */
    uint64_t off_at;
};

/* The clock of I2C1 is HSI or the system clock: RM0091, 6.4.13, RCC_CFGR3.I2C1SW; or given. */
static uint32_t kernel_hz(const struct device *device)
{
    uint32_t fixed = device_option(device, "hsi", 0);
    struct device *rcc = machine_device("rcc");
    uint32_t select = device_option(device, "select", 0);

    if (fixed == 0) {
        return machine_hz();
    }
    return (rcc->model->read(rcc, select) >> device_option(device, "select_bit", 0) & 1) != 0
               ? machine_hz() : fixed;
}

static uint64_t cycles(const struct device *device, double ticks)
{
    return (uint64_t)(ticks * machine_hz() / kernel_hz(device) + 0.5);
}

/*
 * RM0091, 26.4.5 and 26.4.9: SDADEL, SCLDEL, SCLL, SCLH count in (PRESC + 1) ticks. To each half of
 * the clock comes the synchronisation: at least 2 ticks, and 50 ns of the analogue filter.
 */
static void set_times(struct device *device)
{
    struct i2c *i2c = device->state;
    double unit = (i2c->timingr >> 28) + 1.0;
    double ticks = 2.0;
    uint64_t filter = (i2c->cr1 & ANFOFF) == 0 ? machine_cycles_in(50) : 0;

    ticks += (i2c->cr1 >> 8 & 0xF);
    i2c->bits.low = cycles(device, ((i2c->timingr & 0xFF) + 1) * unit + ticks) + filter;
    i2c->bits.high = cycles(device, ((i2c->timingr >> 8 & 0xFF) + 1) * unit + ticks) + filter;
    i2c->bits.hold = cycles(device, (i2c->timingr >> 16 & 0xF) * unit + ticks + 1) + filter;
    i2c->bits.set_up = cycles(device, ((i2c->timingr >> 20 & 0xF) + 1) * unit);
}

/* RM0091, 26.4.2: the clock is faster than a quarter of the low time less the filter, and than the high. */
static void check_kernel(const struct device *device)
{
    const struct i2c *i2c = device->state;
    double ns = 1e9 / kernel_hz(device), unit = ((i2c->timingr >> 28) + 1) * ns;
    double low = ((i2c->timingr & 0xFF) + 1) * unit, high = ((i2c->timingr >> 8 & 0xFF) + 1) * unit;
    double filters = ((i2c->cr1 & ANFOFF) == 0 ? FILTER_NS : 0) + (i2c->cr1 >> 8 & 0xF) * ns;

    if (ns >= (low - filters) / 4 || ns >= high) {
        machine_complain("the clock of the controller is too slow for the bus", device->base + TIMINGR);
    }
}

static void start(struct device *device)
{
    struct i2c *i2c = device->state;

    check_kernel(device);
    set_times(device);
    i2c->remaining = i2c->cr2 >> 16 & 0xFF;
    i2c->isr &= ~(uint32_t)(TC | TCR);
    i2c->activity = STARTING;
    bits_start(&i2c->bits);
}

static void stop(struct i2c *i2c)
{
    i2c->cr2 &= ~(uint32_t)STOP;
    i2c->isr &= ~(uint32_t)(TC | TCR | TXIS);
    i2c->activity = STOPPING;
    bits_stop(&i2c->bits);
}

static void go_on(struct i2c *i2c)
{
    bool more = (i2c->cr2 & RELOAD) != 0;

    if (i2c->remaining == 0 && more) {
        i2c->isr |= TCR;
        i2c->activity = WAIT_NEXT;
    } else if (i2c->remaining == 0 && (i2c->cr2 & (AUTOEND | STOP)) != 0) {
        stop(i2c);
    } else if (i2c->remaining == 0) {
        i2c->isr |= TC;
        i2c->activity = WAIT_NEXT;
    } else if ((i2c->cr2 & RD_WRN) != 0) {
        i2c->activity = RECEIVING;
        bits_receive(&i2c->bits, i2c->remaining > 1 || more);
    } else {
        i2c->isr |= TXIS | TXE;
        i2c->activity = WAIT_TX;
    }
}

static void refuse(struct i2c *i2c)
{
    i2c->isr |= NACKF;
    stop(i2c);
}

static void take(struct i2c *i2c, uint8_t byte)
{
    i2c->rxdr = byte;
    i2c->isr |= RXNE;
    go_on(i2c);
}

static void lose(struct i2c *i2c)
{
    bits_drop(&i2c->bits);
    i2c->isr = (i2c->isr | ARLO) & ~(uint32_t)BUSY;
    i2c->cr2 &= ~(uint32_t)START;
    i2c->activity = REST;
}

static void over(struct i2c *i2c)
{
    i2c->bits.done = false;
    if (i2c->bits.lost) {
        lose(i2c);
    } else if (i2c->activity == STARTING) {
        i2c->isr |= BUSY;
        i2c->activity = ADDRESSING;
        bits_send(&i2c->bits, (uint8_t)((i2c->cr2 & 0xFE) | ((i2c->cr2 & RD_WRN) != 0 ? 1u : 0)));
    } else if (i2c->activity == STOPPING) {
        i2c->isr = (i2c->isr | STOPF) & ~(uint32_t)BUSY;
        i2c->activity = REST;
    } else if (i2c->activity == RECEIVING) {
        --i2c->remaining;
        if ((i2c->isr & RXNE) != 0) {
            i2c->held = i2c->bits.byte;
            i2c->activity = WAIT_RX;
        } else {
            take(i2c, i2c->bits.byte);
        }
    } else if (!i2c->bits.acknowledged) {
        i2c->cr2 &= ~(uint32_t)START;
        refuse(i2c);
    } else {
        /* Cleared when the address has been sent: RM0091, 26.7.2. */
        i2c->cr2 &= ~(uint32_t)START;
        i2c->remaining -= i2c->activity == SENDING ? 1 : 0;
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

    /* The core's clock may have changed. */
    set_times(device);
    bits_step(&i2c->bits);
    if (i2c->bits.done) {
        over(i2c);
    }
}

static void reset(struct device *device)
{
    struct i2c *i2c = device->state;

    i2c->isr = TXE;
}

/* PE = 0 is a software reset: RM0091, 26.4.6. */
static void disable(struct i2c *i2c)
{
    bits_drop(&i2c->bits);
    i2c->activity = REST;
    i2c->isr = TXE;
    i2c->cr2 &= ~(uint32_t)(START | STOP);
}

static void write_cr2(struct device *device, uint32_t value)
{
    struct i2c *i2c = device->state;
    bool reloads = (i2c->isr & TCR) != 0;

    if ((i2c->cr2 & START) != 0 && ((i2c->cr2 ^ value) & TRANSFER) != 0) {
        machine_complain("a transfer is changed while START is set", device->base + CR2);
    }
    /* START is set and not cleared by software. */
    i2c->cr2 = value | (i2c->cr2 & START);
    if ((i2c->cr1 & PE) == 0) {
        return;
    }
    if ((value & START) != 0 && (i2c->activity == REST || i2c->activity == WAIT_NEXT)) {
        start(device);
    } else if ((value & STOP) != 0 && i2c->activity == WAIT_NEXT) {
        stop(i2c);
    } else if (reloads && (value >> 16 & 0xFF) != 0) {
        i2c->isr &= ~(uint32_t)TCR;
        i2c->remaining = value >> 16 & 0xFF;
        go_on(i2c);
    }
}

static void write(struct device *device, uint32_t offset, uint32_t value)
{
    struct i2c *i2c = device->state;

    if (offset == CR1) {
        if ((value & ~i2c->cr1 & PE) != 0 && machine_cycle() < i2c->off_at + OFF_CYCLES) {
            machine_complain("PE is set again too soon", device->base);
        }
        i2c->off_at = (i2c->cr1 & ~value & PE) != 0 ? machine_cycle() : i2c->off_at;
        i2c->cr1 = value;
        if ((value & PE) == 0) {
            disable(i2c);
        }
    } else if (offset == CR2) {
        write_cr2(device, value);
    } else if (offset == TIMINGR) {
        if ((i2c->cr1 & PE) != 0) {
            machine_complain("TIMINGR is written while PE is set", device->base + offset);
        }
        i2c->timingr = value;
    } else if (offset == ISR) {
        i2c->isr |= value & TXE;
    } else if (offset == ICR) {
        i2c->isr &= ~(value & (NACKF | STOPF | BERR | ARLO | OVR));
    } else if (offset == TXDR && i2c->activity == WAIT_TX) {
        i2c->isr &= ~(uint32_t)(TXIS);
        i2c->activity = SENDING;
        bits_send(&i2c->bits, (uint8_t)value);
    } else if (offset == TXDR) {
        machine_complain("a byte is written that was not asked for", device->base + offset);
    }
}

static uint32_t read(struct device *device, uint32_t offset)
{
    struct i2c *i2c = device->state;
    uint8_t byte = i2c->rxdr;

    switch (offset) {
    case CR1:
        return i2c->cr1;
    case CR2:
        return i2c->cr2;
    case TIMINGR:
        return i2c->timingr;
    case ISR:
        return i2c->isr;
    case RXDR:
        i2c->isr &= ~(uint32_t)RXNE;
        if (i2c->activity == WAIT_RX) {
            take(i2c, i2c->held);
        }
        return byte;
    default:
        return 0;
    }
}

static unsigned asks(const struct device *device)
{
    const struct i2c *i2c = device->state;
    uint32_t on = i2c->cr1, is = i2c->isr;

    return (on & TXIE && is & TXIS) || (on & RXIE && is & RXNE) || (on & NACKIE && is & NACKF) ||
           (on & STOPIE && is & STOPF) || (on & TCIE && is & (TC | TCR)) ||
           (on & ERRIE && is & (BERR | ARLO | OVR));
}

static bool drives(const struct device *device, const char *signal, bool *high)
{
    const struct i2c *i2c = device->state;

    *high = strcmp(signal, "sda") == 0 ? !i2c->bits.low_sda : !i2c->bits.low_scl;
    return (i2c->cr1 & PE) != 0;
}

const struct model i2c_timingr_model = {
    .kind = "i2c_timingr", .state_bytes = sizeof(struct i2c), .reset = reset, .read = read,
    .write = write, .due = due, .step = step, .asks = asks, .drives = drives};
