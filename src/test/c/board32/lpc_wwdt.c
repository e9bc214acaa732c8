/* The windowed watchdog of the LPC800 series, without its window: UM10601 12.6, UM10800 17.6; LPC84x, LPC80x alike. */
#include "lpc.h"

enum { MOD = 0x00, TC = 0x04, FEED = 0x08, TV = 0x0C };
enum { WDEN = 1, WDRESET = 2, LEAST = 0xFF, PRESCALER = 4 };

struct wwdt {
    uint32_t mode, reload;
    bool runs, half_fed;
    uint64_t barks_ns;
};

static void reset(struct device *device)
{
    ((struct wwdt *)device->state)->reload = LEAST;
}

static void feed(struct device *device)
{
    struct wwdt *wwdt = device->state;
    double hz = lpc_hz(LPC_WATCHDOG);

    if ((wwdt->mode & WDEN) == 0) {
        return;
    }
    if (hz == 0) {
        machine_complain("the watchdog has no clock", device->base);
        return;
    }
    wwdt->runs = true;
    wwdt->barks_ns = machine_ns() + (uint64_t)((wwdt->reload + 1.0) * PRESCALER * 1e9 / hz);
}

/* Nothing else may come between the two values of a feed; before the first one mistakes do not count. */
static void bite(struct device *device, uint32_t offset)
{
    struct wwdt *wwdt = device->state;

    machine_complain("the watchdog is fed in a wrong way", device->base + offset);
    if (wwdt->runs) {
        machine_ask_reset();
    }
}

static void write(struct device *device, uint32_t offset, uint32_t value)
{
    struct wwdt *wwdt = device->state;
    bool half_fed = wwdt->half_fed;

    wwdt->half_fed = offset == FEED && value == 0xAA;
    if (half_fed != (offset == FEED && value == 0x55) || (offset == FEED && value != 0xAA && value != 0x55)) {
        bite(device, offset);
    } else if (offset == FEED && half_fed) {
        feed(device);
    } else if (offset == MOD) {
        wwdt->mode = value | (wwdt->mode & (WDEN | WDRESET));
    } else if (offset == TC) {
        wwdt->reload = (value & 0xFFFFFF) < LEAST ? LEAST : value & 0xFFFFFF;
    } else if (offset != FEED) {
        machine_complain("a register of the watchdog that has no model", device->base + offset);
    }
}

static uint32_t read(struct device *device, uint32_t offset)
{
    const struct wwdt *wwdt = device->state;

    if (wwdt->half_fed) {
        bite(device, offset);
    }
    return offset == MOD ? wwdt->mode : offset == TC ? wwdt->reload : 0;
}

static uint64_t due(const struct device *device)
{
    const struct wwdt *wwdt = device->state;

    return wwdt->runs ? machine_cycle_of(wwdt->barks_ns) : NEVER;
}

static void step(struct device *device)
{
    struct wwdt *wwdt = device->state;

    wwdt->runs = false;
    if ((wwdt->mode & WDRESET) == 0) {
        machine_complain("the watchdog's interrupt has no model", device->base);
    }
    machine_ask_reset();
}

static void stop(struct device *device)
{
    if (((const struct wwdt *)device->state)->runs && !lpc_sleeps_with(LPC_POWER_WATCHDOG)) {
        machine_complain("the watchdog's oscillator stops in deep sleep", device->base);
    }
}

const struct model lpc_wwdt_model = {
    .kind = "lpc_wwdt", .state_bytes = sizeof(struct wwdt), .reset = reset, .read = read, .write = write,
    .due = due, .step = step, .goes_on = true, .stop = stop};
