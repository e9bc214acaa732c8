/*
 * nRF51: the two-wire interface, which leads the bus (reference manual v3.0, chapter TWI). After eight
 * bits have come in, it tells of them (BB, RXDREADY) and holds the clock until RXD is read; then it
 * acknowledges, unless STOP has been asked for, and holds the clock again where SUSPEND has been. Where
 * exactly BB comes is not in the manual. Anomaly 56 is modelled at its worst: interface and bus stand
 * still after RESUME before the answer has been sent, and after it was disabled in a transaction, until
 * it has been without power for 5 us.
 */
#include <string.h>

#include "bits.h"
#include "lines.h"
#include "nrf.h"

enum { STARTRX = 0x000, STARTTX = 0x008, STOP = 0x014, SUSPEND = 0x01C, RESUME = 0x020 };
enum { STOPPED = 0x104, RXDREADY = 0x108, TXDSENT = 0x11C, ERROR = 0x124, BB = 0x138, SHORTS = 0x200 };
enum { ERRORSRC = 0x4C4, PSELSCL = 0x508, PSELSDA = 0x50C, RXD = 0x518, TXD = 0x51C, FREQUENCY = 0x524,
       ADDRESS = 0x588 };
enum { ON = 5, ANACK = 2, DNACK = 4 };
#define POWER_OFF_NS 5000

enum activity { REST, STARTING, ADDRESSING, WAIT_TX, SENDING, RECEIVING, TOLD, ANSWERING, HELD, WAIT_END,
                STOPPING };

struct twi {
    struct nrf nrf;
    struct bits bits;
    enum activity activity;
    bool reads, tx_full, stops, suspends, locked, off;
    uint64_t off_since;
};

static void lock_up(struct twi *twi)
{
    bits_drop(&twi->bits);
    twi->activity = REST;
    twi->locked = true;
}

/* FREQUENCY is the rate in 2^-32 of the clock; both halves are the same (from memory). */
static void start(struct device *device, bool reads)
{
    struct twi *twi = device->state;
    uint32_t rate = nrf_get(device, FREQUENCY);

    if (rate != 0x01980000u && rate != 0x04000000u && rate != 0x06680000u) {
        machine_complain("a word for FREQUENCY that the maker does not name", device->base);
        rate = 0x01980000u;
    }
    twi->bits.low = (UINT64_C(1) << 31) / rate;
    twi->bits.high = twi->bits.low;
    /* Product specification, "TWI": data moves early in the low half. */
    twi->bits.hold = machine_cycles_in(500);
    twi->bits.set_up = machine_cycles_in(300);
    twi->reads = reads;
    twi->stops = twi->suspends = false;
    twi->activity = STARTING;
    bits_start(&twi->bits);
}

static void send(struct device *device)
{
    struct twi *twi = device->state;

    twi->tx_full = false;
    twi->activity = SENDING;
    nrf_event(device, BB);
    bits_send(&twi->bits, (uint8_t)nrf_get(device, TXD));
}

static void stop(struct twi *twi)
{
    twi->activity = STOPPING;
    bits_stop(&twi->bits);
}

static void receive(struct twi *twi)
{
    twi->suspends = false;
    twi->activity = RECEIVING;
    bits_receive(&twi->bits, true);
}

static void refuse(struct device *device, uint32_t why)
{
    struct twi *twi = device->state;

    *nrf_at(device, ERRORSRC) |= why;
    nrf_event(device, ERROR);
    twi->activity = WAIT_END;
}

static void addressed(struct device *device)
{
    struct twi *twi = device->state;

    if (twi->reads) {
        receive(twi);
    } else if (twi->tx_full) {
        send(device);
    } else {
        twi->activity = WAIT_TX;
    }
}

static void over(struct device *device)
{
    struct twi *twi = device->state;

    twi->bits.done = false;
    if (twi->activity == STARTING) {
        twi->activity = ADDRESSING;
        bits_send(&twi->bits, (uint8_t)(nrf_get(device, ADDRESS) << 1 | (twi->reads ? 1u : 0)));
    } else if (twi->activity == STOPPING) {
        twi->activity = REST;
        nrf_event(device, STOPPED);
    } else if (twi->activity == ANSWERING && twi->stops) {
        stop(twi);
    } else if (twi->activity == ANSWERING && twi->suspends) {
        twi->activity = HELD;
    } else if (twi->activity == ANSWERING) {
        receive(twi);
    } else if (!twi->bits.acknowledged) {
        refuse(device, twi->activity == ADDRESSING ? ANACK : DNACK);
    } else if (twi->activity == ADDRESSING) {
        addressed(device);
    } else {
        twi->activity = WAIT_TX;
        nrf_event(device, TXDSENT);
        if (twi->stops) {
            stop(twi);
        }
    }
}

static uint64_t due(const struct device *device)
{
    const struct twi *twi = device->state;

    return twi->activity == TOLD ? NEVER : bits_due(&twi->bits);
}

static void step(struct device *device)
{
    struct twi *twi = device->state;
    struct bits *bits = &twi->bits;

    if (twi->activity == RECEIVING && bits->bit == 8 && bits->phase <= 1) {
        twi->activity = TOLD;
        *nrf_at(device, RXD) = bits->shift & 0xFF;
        nrf_event(device, BB);
        nrf_event(device, RXDREADY);
        return;
    }
    bits_step(bits);
    if (bits->done) {
        over(device);
    }
}

/* RXD has been read: the answer, and on. */
static void answer(struct twi *twi)
{
    twi->activity = ANSWERING;
    bits_answer(&twi->bits, !twi->stops);
    twi->bits.next_at = machine_cycle();
}

static void ask_stop(struct device *device)
{
    struct twi *twi = device->state;

    if (twi->activity == HELD) {
        machine_complain("STOP while the interface is suspended", device->base);
    } else if (twi->activity == WAIT_TX || twi->activity == WAIT_END) {
        stop(twi);
    } else {
        twi->stops = twi->activity != REST && twi->activity != STOPPING;
    }
}

static void task(struct device *device, uint32_t offset)
{
    struct twi *twi = device->state;

    if (twi->locked || nrf_get(device, NRF_ENABLE) != ON) {
        return;
    }
    if (offset == STARTRX || offset == STARTTX) {
        if (twi->activity != REST && twi->activity != WAIT_TX) {
            machine_complain("START in the middle of something", device->base + offset);
        }
        start(device, offset == STARTRX);
    } else if (offset == STOP) {
        ask_stop(device);
    } else if (offset == SUSPEND) {
        twi->suspends = true;
    } else if (offset == RESUME && twi->activity == HELD) {
        receive(twi);
    } else if (offset == RESUME) {
        machine_complain("RESUME before the answer has been sent (anomaly 56)", device->base);
        lock_up(twi);
    }
}

static void power(struct device *device, bool on)
{
    struct twi *twi = device->state;
    uint64_t since = twi->off ? twi->off_since : machine_cycle();

    if (on && twi->off && machine_cycle() - since < machine_cycles_in(POWER_OFF_NS)) {
        machine_complain("TWI is without power for less than 5 us (anomaly 56)", device->base);
    }
    if (!on) {
        memset(twi, 0, sizeof *twi);
        twi->off = true;
        twi->off_since = since;
    } else {
        twi->off = false;
    }
    *nrf_at(device, NRF_POWER) = on ? 1 : 0;
}

static void enable(struct device *device, uint32_t value)
{
    struct twi *twi = device->state;

    if (value != ON && twi->activity != REST) {
        lock_up(twi);
    }
    *nrf_at(device, NRF_ENABLE) = value;
}

static void write(struct device *device, uint32_t offset, uint32_t value)
{
    struct twi *twi = device->state;

    if (offset == NRF_POWER) {
        power(device, (value & 1) != 0);
    } else if (twi->off) {
        machine_complain("TWI is written while it has no power", device->base + offset);
    } else if (offset < NRF_EVENTS) {
        task(device, offset);
    } else if (offset == NRF_ENABLE) {
        enable(device, value);
    } else {
        if (nrf_get(device, NRF_ENABLE) != 0 && (offset == PSELSCL || offset == PSELSDA)) {
            machine_complain("pins are chosen while TWI is on", device->base + offset);
        }
        nrf_write(device, offset, value);
        if (offset == TXD) {
            twi->tx_full = true;
            if (twi->activity == WAIT_TX) {
                send(device);
            }
        }
    }
}

static uint32_t read(struct device *device, uint32_t offset)
{
    struct twi *twi = device->state;

    if (offset == RXD && twi->activity == TOLD) {
        answer(twi);
    }
    return nrf_read(device, offset);
}

static void reset(struct device *device)
{
    *nrf_at(device, NRF_POWER) = 1;
}

static bool drives(const struct device *device, const char *signal, bool *high)
{
    const struct twi *twi = device->state;

    *high = strcmp(signal, "sda") == 0 ? !twi->bits.low_sda : !twi->bits.low_scl;
    return nrf_get(device, NRF_ENABLE) == ON;
}

static bool needs_clock(const struct device *device)
{
    return ((const struct twi *)device->state)->activity != REST;
}

const struct model nrf_twi_model = {
    .kind = "nrf_twi", .state_bytes = sizeof(struct twi), .reset = reset, .read = read, .write = write,
    .due = due, .step = step, .asks = nrf_asks, .drives = drives,
    .needs_clock = needs_clock};
