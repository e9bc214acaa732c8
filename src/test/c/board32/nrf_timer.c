/*
 * nRF51: a timer that counts to CC[0] and starts over (reference manual v3.0, chapter TIMER), and the
 * watchdog (chapter WDT).
 */
#include "nrf.h"

enum { START = 0x000, STOP = 0x004, CLEAR = 0x00C, SHUTDOWN = 0x010, COMPARE0 = 0x140, SHORTS = 0x200,
       MODE = 0x504, BITMODE = 0x508, PRESCALER = 0x510, CC0 = 0x540 };
#define STARTS_OVER 1u

struct timer {
    struct nrf nrf;
    bool runs;
    uint64_t from;
};

/* Cycles from zero to CC[0], by the width of the counter; 0 is reached after the whole round. */
static uint64_t round_cycles(const struct device *device)
{
    static const unsigned bits[] = {16, 8, 24, 32};
    uint64_t counts = UINT64_C(1) << bits[nrf_get(device, BITMODE) & 3];
    uint64_t wanted = nrf_get(device, CC0) & (counts - 1);

    return (wanted == 0 ? counts : wanted) << nrf_get(device, PRESCALER);
}

static uint64_t due(const struct device *device)
{
    const struct timer *timer = device->state;

    return timer->runs ? timer->from + round_cycles(device) : NEVER;
}

static void step(struct device *device)
{
    struct timer *timer = device->state;

    timer->from += round_cycles(device);
    if ((nrf_get(device, SHORTS) & STARTS_OVER) == 0) {
        machine_complain("a timer that does not start over is not modelled", device->base);
    }
    nrf_event(device, COMPARE0);
}

static void write(struct device *device, uint32_t offset, uint32_t value)
{
    struct timer *timer = device->state;

    if (offset == START) {
        timer->from = timer->runs ? timer->from : machine_cycle();
        timer->runs = true;
    } else if (offset == STOP || offset == SHUTDOWN) {
        timer->runs = false;
    } else if (offset == CLEAR) {
        timer->from = machine_cycle();
    } else {
        if (timer->runs && (offset == PRESCALER || offset == BITMODE || offset == MODE)) {
            machine_complain("a timer is set up while it runs", device->base + offset);
        }
        nrf_write(device, offset, value);
    }
}

static bool needs_clock(const struct device *device)
{
    return ((const struct timer *)device->state)->runs;
}

const struct model nrf_timer_model = {
    .kind = "nrf_timer", .state_bytes = sizeof(struct timer), .read = nrf_read, .write = write,
    .due = due, .step = step, .asks = nrf_asks, .needs_clock = needs_clock};

enum { CRV = 0x504, RREN = 0x508, CONFIG = 0x50C, RR0 = 0x600 };
#define RELOAD 0x6E524635u
#define LEAST 15u

struct wdt {
    struct nrf nrf;
    bool runs;
    uint64_t barks_ns;
};

static void wdt_reload(struct device *device)
{
    uint64_t counts = nrf_get(device, CRV) + UINT64_C(1);

    ((struct wdt *)device->state)->barks_ns = machine_ns() + counts * 1000000000 / 32768;
}

static void wdt_reset(struct device *device)
{
    *nrf_at(device, CRV) = UINT32_MAX;
}

static void wdt_write(struct device *device, uint32_t offset, uint32_t value)
{
    struct wdt *wdt = device->state;

    if (offset == START) {
        wdt->runs = true;
        wdt_reload(device);
    } else if (offset == RR0 && value == RELOAD) {
        wdt_reload(device);
    } else if (wdt->runs && (offset == CRV || offset == RREN || offset == CONFIG)) {
        machine_complain("the watchdog is set up while it runs", device->base + offset);
    } else {
        if (offset == CRV && value < LEAST) {
            machine_complain("CRV is below 15", device->base + offset);
        }
        nrf_write(device, offset, value);
    }
}

static uint64_t wdt_due(const struct device *device)
{
    const struct wdt *wdt = device->state;

    return wdt->runs ? machine_cycle_of(wdt->barks_ns) : NEVER;
}

static void wdt_step(struct device *device)
{
    wdt_reload(device);
    machine_ask_reset();
}

const struct model nrf_wdt_model = {
    .kind = "nrf_wdt", .state_bytes = sizeof(struct wdt), .reset = wdt_reset, .read = nrf_read,
    .write = wdt_write, .due = wdt_due, .step = wdt_step, .goes_on = true};
