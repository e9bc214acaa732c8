/* The watchdog of SAM D10, D11, D20 and D21: data sheet of SAM D21 (DS40001882), "WDT". */
#include "models.h"
#include "samd.h"

enum { CTRL = 0x0, CONFIG = 0x1, STATUS = 0x7, CLEAR = 0x8 };
enum { ENABLE = 2, SYNCBUSY = 0x80, KEY = 0xA5, LONGEST = 11 };

/* Of its own slow clock, until a write has arrived: "Register Synchronization", up to six. */
#define SYNC_TICKS 6

struct wdt {
    uint32_t period;
    bool runs;
    uint64_t barks_at, settled_at;
};

static uint64_t ticks(const struct device *device, unsigned count)
{
    return (uint64_t)((double)count * machine_hz() / samd_clock(device));
}

static void reset(struct device *device)
{
    ((struct wdt *)device->state)->period = LONGEST;
}

static void restart(struct device *device, uint64_t from)
{
    struct wdt *wdt = device->state;

    wdt->barks_at = from + ticks(device, 8u << wdt->period);
}

static void write(struct device *device, uint32_t offset, uint32_t value, unsigned bytes)
{
    struct wdt *wdt = device->state;

    if (bytes != 1 || (offset != CTRL && machine_cycle() < wdt->settled_at)) {
        machine_complain("the watchdog is written while it is busy", device->base + offset);
    } else if (offset == CONFIG && !wdt->runs) {
        wdt->period = (value & 15) > LONGEST ? LONGEST : value & 15;
    } else if (offset == CTRL && value == ENABLE) {
        wdt->runs = true;
        wdt->settled_at = machine_cycle() + ticks(device, SYNC_TICKS);
        restart(device, wdt->settled_at);
    } else if (offset == CLEAR && value == KEY) {
        wdt->settled_at = machine_cycle() + ticks(device, SYNC_TICKS);
        restart(device, wdt->settled_at);
    } else {
        machine_complain("a write that the watchdog does not know", device->base + offset);
    }
}

static uint32_t read(struct device *device, uint32_t offset, unsigned bytes)
{
    const struct wdt *wdt = device->state;

    (void)bytes;
    return offset == STATUS && machine_cycle() < wdt->settled_at ? SYNCBUSY : 0;
}

static uint64_t due(const struct device *device)
{
    const struct wdt *wdt = device->state;

    return wdt->runs ? wdt->barks_at : NEVER;
}

static void step(struct device *device)
{
    restart(device, machine_cycle());
    machine_ask_reset();
}

const struct model wdt_samd_model = {
    .kind = "wdt_samd", .state_bytes = sizeof(struct wdt), .reset = reset, .read_bytes = read,
    .write_bytes = write, .due = due, .step = step};
