/*
 * The two-wire controller with CCR, SR1 and SR2, as a master: RM0008 (STM32F1), section 26. The same
 * in CH32V003 (reference manual, "I2C"), CH32V1/V2 and GD32VF103. Slave mode, SMBus, DMA and 10-bit
 * addresses are left out.
 */
#include <string.h>

#include "lines.h"
#include "models.h"
#include "bits.h"

enum { CR1 = 0x00, CR2 = 0x04, DR = 0x10, SR1 = 0x14, SR2 = 0x18, CCR = 0x1C, TRISE = 0x20 };
enum { PE = 1u << 0, START = 1u << 8, STOP = 1u << 9, ACK = 1u << 10, POS = 1u << 11, SWRST = 1u << 15 };
enum { ITERREN = 1u << 8, ITEVTEN = 1u << 9, ITBUFEN = 1u << 10 };
enum { SB = 1u << 0, ADDR = 1u << 1, BTF = 1u << 2, RXNE = 1u << 6, TXE = 1u << 7, BERR = 1u << 8,
       ARLO = 1u << 9, AF = 1u << 10, OVR = 1u << 11 };
enum { MSL = 1u << 0, BUSY = 1u << 1, TRA = 1u << 2, FAST = 1u << 15, DUTY = 1u << 14 };

enum activity { REST, STARTING, WAIT_ADDRESS, ADDRESSING, WAIT_CLEAR, SENDING, WAIT_TX, RECEIVING,
                WAIT_RX, STOPPING, WAIT_END };

struct i2c {
    struct bits bits;
    enum activity activity;
    uint32_t cr1, cr2, ccr, trise, sr1;
    bool busy, reads, tx_full, sr1_read, acknowledged;
    uint8_t tx, rx, held;
};

/* RM0008, 26.6.8: CCR counts cycles of the peripheral's clock, which is the core's here. */
static void set_times(struct i2c *i2c)
{
    uint64_t count = i2c->ccr & 0xFFF;
    bool fast = (i2c->ccr & FAST) != 0, long_low = (i2c->ccr & DUTY) != 0;

    i2c->bits.low = count * (fast ? (long_low ? 16 : 2) : 1);
    i2c->bits.high = count * (fast && long_low ? 9 : 1);
    /* Not given in the manual: data moves within the low half, early. */
    i2c->bits.hold = i2c->bits.low / 8 + 1;
    i2c->bits.set_up = i2c->bits.low / 2;
}

/*
 * RM0008, 26.6.2, 26.6.8 and 26.6.9: FREQ is the clock in MHz, 2 at least, and 4 for Fast-mode; CCR is 4
 * at least, or 1; TRISE is the longest rise in those clocks, and one more.
 */
static void check_times(const struct device *device)
{
    const struct i2c *i2c = device->state;
    uint32_t freq = i2c->cr2 & 0x3F, count = i2c->ccr & 0xFFF;
    bool fast = (i2c->ccr & FAST) != 0;
    uint32_t rise = freq * (fast ? 300 : 1000) / 1000 + 1;

    if (freq != (machine_hz() + 999999) / 1000000 || freq < (fast ? 4 : 2) ||
        freq > device_option(device, "freq_most", 36)) {
        machine_complain("FREQ is not the clock, or the clock is too slow or fast", device->base + CR2);
    }
    if (count < (fast ? 1 : 4)) {
        machine_complain("CCR is too small", device->base + CCR);
    }
    if (device_option(device, "rise", 1) != 0 && i2c->trise < rise) {
        machine_complain("TRISE is too small", device->base + TRISE);
    }
}

static void start(struct i2c *i2c)
{
    set_times(i2c);
    i2c->activity = STARTING;
    bits_start(&i2c->bits);
}

static void stop(struct i2c *i2c)
{
    i2c->activity = STOPPING;
    bits_stop(&i2c->bits);
}

/* START or STOP that was asked for comes after the byte; false where neither was. */
static bool ends(struct i2c *i2c)
{
    if ((i2c->cr1 & STOP) != 0) {
        stop(i2c);
    } else if ((i2c->cr1 & START) != 0) {
        start(i2c);
    } else {
        return false;
    }
    return true;
}

static void send(struct i2c *i2c)
{
    i2c->activity = SENDING;
    i2c->tx_full = false;
    i2c->sr1 = (i2c->sr1 | TXE) & ~(uint32_t)BTF;
    bits_send(&i2c->bits, i2c->tx);
}

static void receive(struct i2c *i2c)
{
    i2c->activity = RECEIVING;
    /* The acknowledge bit is looked at again when its clock comes: see due(). */
    bits_receive(&i2c->bits, (i2c->cr1 & ACK) != 0);
}

static void take(struct i2c *i2c, uint8_t byte)
{
    i2c->rx = byte;
    i2c->sr1 = (i2c->sr1 | RXNE) & ~(uint32_t)BTF;
    if (ends(i2c)) {
        return;
    }
    if (i2c->acknowledged) {
        receive(i2c);
    } else {
        i2c->activity = WAIT_END;
    }
}

static void go_on_sending(struct i2c *i2c)
{
    if (i2c->tx_full) {
        send(i2c);
    } else if (!ends(i2c)) {
        i2c->sr1 |= BTF | TXE;
        i2c->activity = WAIT_TX;
    }
}

static void lose(struct i2c *i2c)
{
    bits_drop(&i2c->bits);
    i2c->sr1 |= ARLO;
    i2c->activity = REST;
}

static void refuse(struct i2c *i2c)
{
    i2c->sr1 |= AF;
    i2c->tx_full = false;
    if (!ends(i2c)) {
        i2c->activity = WAIT_END;
    }
}

static void over(struct i2c *i2c)
{
    i2c->bits.done = false;
    if (i2c->bits.lost) {
        lose(i2c);
    } else if (i2c->activity == STARTING) {
        i2c->sr1 = (i2c->sr1 & ~(uint32_t)(TXE | BTF)) | SB;
        i2c->cr1 &= ~(uint32_t)START;
        i2c->sr1_read = false;
        i2c->activity = WAIT_ADDRESS;
    } else if (i2c->activity == STOPPING) {
        i2c->cr1 &= ~(uint32_t)STOP;
        i2c->sr1 &= ~(uint32_t)(TXE | BTF);
        i2c->busy = false;
        i2c->activity = REST;
        if ((i2c->cr1 & START) != 0) {
            start(i2c);
        }
    } else if (i2c->activity == RECEIVING) {
        i2c->acknowledged = i2c->bits.acknowledged;
        if ((i2c->sr1 & RXNE) != 0) {
            i2c->held = i2c->bits.byte;
            i2c->sr1 |= BTF;
            i2c->activity = WAIT_RX;
        } else {
            take(i2c, i2c->bits.byte);
        }
    } else if (!i2c->bits.acknowledged) {
        refuse(i2c);
    } else if (i2c->activity == ADDRESSING) {
        i2c->sr1 |= ADDR;
        i2c->sr1_read = false;
        i2c->activity = WAIT_CLEAR;
    } else {
        go_on_sending(i2c);
    }
}

static void address_cleared(struct i2c *i2c)
{
    i2c->sr1 &= ~(uint32_t)ADDR;
    if (i2c->reads) {
        receive(i2c);
    } else {
        i2c->sr1 |= TXE;
        i2c->activity = WAIT_TX;
        if (i2c->tx_full) {
            send(i2c);
        }
    }
}

static uint64_t due(const struct device *device)
{
    return bits_due(&((const struct i2c *)device->state)->bits);
}

static void step(struct device *device)
{
    struct i2c *i2c = device->state;
    struct bits *bits = &i2c->bits;

    if (i2c->activity == RECEIVING && bits->bit == 8 && bits->phase <= 1) {
        /* ACK, as it stands when the ninth bit begins. */
        bits_answer(bits, (i2c->cr1 & ACK) != 0);
    }
    bits_step(bits);
    if (bits->done) {
        over(i2c);
    }
}

static void disable(struct i2c *i2c)
{
    bits_drop(&i2c->bits);
    i2c->activity = REST;
    i2c->sr1 = 0;
    i2c->busy = i2c->tx_full = false;
    i2c->cr1 &= ~(uint32_t)(START | STOP);
}

/* Set by a low line, cleared by STOP: RM0008, 26.6.7. */
static bool is_busy(struct i2c *i2c)
{
    if ((i2c->cr1 & PE) != 0 && (!lines_sda() || !lines_scl())) {
        i2c->busy = true;
    }
    return i2c->busy;
}

/*
 * RM0008, 26.6.1: CR1 is not written while START or STOP waits, or there may be a second one, which
 * cannot be where PE goes; and a master clears PE only when no communication goes on. SWRST is there for
 * what hangs.
 */
static void check_cr1(const struct device *device, uint32_t value)
{
    const struct i2c *i2c = device->state;
    bool clears = (i2c->cr1 & ~value & PE) != 0;

    if ((value & SWRST) != 0) {
        return;
    }
    if (!clears && (i2c->cr1 & (START | STOP)) != 0) {
        machine_complain("CR1 is written while START or STOP waits", device->base);
    } else if (clears && i2c->activity != REST && i2c->activity != STARTING) {
        machine_complain("PE is cleared in the middle of a transfer", device->base);
    }
}

static void write_cr1(struct device *device, uint32_t value)
{
    struct i2c *i2c = device->state;

    check_cr1(device, value);
    i2c->cr1 = value;
    if ((value & PE) == 0 || (value & SWRST) != 0) {
        disable(i2c);
        return;
    }
    if ((value & (START | STOP)) == 0) {
        return;
    }
    if ((value & START) != 0) {
        check_times(device);
    }
    if (i2c->activity == REST && (value & STOP) != 0) {
        i2c->cr1 &= ~(uint32_t)STOP;
    }
    if (i2c->activity == REST && (value & START) != 0 && !is_busy(i2c)) {
        start(i2c);
    } else if (i2c->activity == WAIT_END || (i2c->activity == WAIT_TX && !i2c->tx_full)) {
        (void)ends(i2c);
    }
}

static void write(struct device *device, uint32_t offset, uint32_t value)
{
    struct i2c *i2c = device->state;

    if (offset == CR1) {
        write_cr1(device, value);
    } else if (offset == CR2) {
        i2c->cr2 = value;
    } else if (offset == CCR || offset == TRISE) {
        if ((i2c->cr1 & PE) != 0) {
            machine_complain("CCR or TRISE is written while PE is set", device->base + offset);
        }
        *(offset == CCR ? &i2c->ccr : &i2c->trise) = value;
    } else if (offset == SR1) {
        i2c->sr1 &= value | ~(uint32_t)(BERR | ARLO | AF | OVR);
    } else if (offset == DR && i2c->activity == WAIT_ADDRESS) {
        i2c->sr1 &= ~(uint32_t)SB;
        i2c->reads = (value & 1) != 0;
        i2c->activity = ADDRESSING;
        bits_send(&i2c->bits, (uint8_t)value);
    } else if (offset == DR) {
        if (i2c->tx_full || (i2c->activity != WAIT_TX && i2c->activity != SENDING)) {
            machine_complain("a byte is written that cannot be sent", device->base + DR);
        }
        i2c->tx = (uint8_t)value;
        i2c->tx_full = true;
        i2c->sr1 &= ~(uint32_t)(TXE | BTF);
        if (i2c->activity == WAIT_TX) {
            send(i2c);
        }
    }
}

static uint32_t read(struct device *device, uint32_t offset)
{
    struct i2c *i2c = device->state;
    bool master = i2c->activity != REST && i2c->activity != STARTING;
    uint8_t byte = i2c->rx;

    switch (offset) {
    case CR1:
        return i2c->cr1;
    case CR2:
        return i2c->cr2;
    case CCR:
        return i2c->ccr;
    case TRISE:
        return i2c->trise;
    case SR1:
        i2c->sr1_read = true;
        return i2c->sr1;
    case SR2:
        if (i2c->activity == WAIT_CLEAR && i2c->sr1_read) {
            address_cleared(i2c);
        }
        return (master ? MSL : 0u) | (is_busy(i2c) ? BUSY : 0u) |
               (master && !i2c->reads ? TRA : 0u);
    case DR:
        i2c->sr1 &= ~(uint32_t)RXNE;
        if (i2c->activity == WAIT_RX) {
            take(i2c, i2c->held);
        }
        return byte;
    default:
        return 0;
    }
}

/* Events are the first interrupt, errors the second: RM0008, 26.3.7 and figure "I2C interrupt mapping". */
static unsigned asks(const struct device *device)
{
    const struct i2c *i2c = device->state;
    uint32_t events = SB | ADDR | BTF | ((i2c->cr2 & ITBUFEN) != 0 ? TXE | RXNE : 0);
    bool event = (i2c->cr2 & ITEVTEN) != 0 && (i2c->sr1 & events) != 0;
    bool error = (i2c->cr2 & ITERREN) != 0 && (i2c->sr1 & (BERR | ARLO | AF | OVR)) != 0;

    return (event ? 1u : 0) | (error ? 2u : 0);
}

static bool drives(const struct device *device, const char *signal, bool *high)
{
    const struct i2c *i2c = device->state;

    *high = strcmp(signal, "sda") == 0 ? !i2c->bits.low_sda : !i2c->bits.low_scl;
    return (i2c->cr1 & PE) != 0;
}

const struct model i2c_ccr_model = {
    .kind = "i2c_ccr", .state_bytes = sizeof(struct i2c), .read = read, .write = write, .due = due,
    .step = step, .asks = asks, .drives = drives};
