/*
 * The watchdog of SAM D10, D11, D20 and D21: data sheet of SAM D21 (DS40001882), "WDT". It goes on in Standby;
 * whether a write gets to it while its bus stands is not said, and not counted on.
 */
#include "models.h"
#include "samd.h"

enum { CTRL = 0x0, CONFIG = 0x1, STATUS = 0x7, CLEAR = 0x8 };
enum { ENABLE = 2, SYNCBUSY = 0x80, KEY = 0xA5, LONGEST = 11 };

/* Of its own slow clock, until a write has arrived: "Register Synchronization", up to six. */
#define SYNC_TICKS 6

struct wdt {
    uint32_t period;
    bool runs;
    uint64_t barks_ns, settled_ns;
};

static uint64_t ticks_ns(const struct device *device, unsigned count)
{
    return (uint64_t)((double)count * 1e9 / samd_clock(device));
}

static void reset(struct device *device)
{
    ((struct wdt *)device->state)->period = LONGEST;
}

static void restart(struct device *device, uint64_t from_ns)
{
    struct wdt *wdt = device->state;

    wdt->barks_ns = from_ns + ticks_ns(device, 8u << wdt->period);
}

static bool is_busy(const struct wdt *wdt)
{
    return machine_ns() < wdt->settled_ns;
}

static void write(struct device *device, uint32_t offset, uint32_t value, unsigned bytes)
{
    struct wdt *wdt = device->state;

    if (bytes != 1 || (offset != CTRL && is_busy(wdt))) {
        machine_complain("the watchdog is written while it is busy", device->base + offset);
    } else if (offset == CONFIG && !wdt->runs) {
        wdt->period = (value & 15) > LONGEST ? LONGEST : value & 15;
    } else if (offset == CTRL && value == ENABLE) {
        wdt->runs = true;
        wdt->settled_ns = machine_ns() + ticks_ns(device, SYNC_TICKS);
        restart(device, wdt->settled_ns);
    } else if (offset == CLEAR && value == KEY) {
        wdt->settled_ns = machine_ns() + ticks_ns(device, SYNC_TICKS);
        restart(device, wdt->settled_ns);
    } else {
        machine_complain("a write that the watchdog does not know", device->base + offset);
    }
}

static uint32_t read(struct device *device, uint32_t offset, unsigned bytes)
{
    const struct wdt *wdt = device->state;

    (void)bytes;
    if (offset == STATUS && is_busy(wdt)) {
        machine_read_moving();
        return SYNCBUSY;
    }
    return 0;
}

static uint64_t due(const struct device *device)
{
    const struct wdt *wdt = device->state;

    return wdt->runs ? machine_cycle_of(wdt->barks_ns) : NEVER;
}

static void step(struct device *device)
{
    restart(device, machine_ns());
    machine_ask_reset();
}

static void stop(struct device *device)
{
    const struct wdt *wdt = device->state;

    if (wdt->runs && (!samd_clock_goes_on(device) || is_busy(wdt))) {
        machine_complain("Standby stops the watchdog's clock, or its bus before a write has arrived", device->base);
    }
}

const struct model wdt_samd_model = {
    .kind = "wdt_samd", .state_bytes = sizeof(struct wdt), .reset = reset, .read_bytes = read,
    .write_bytes = write, .due = due, .step = step, .goes_on = true, .stop = stop};
