/*
 * The independent watchdog: RM0091 (STM32F0), section 24; the same in STM32F1 (RM0008, section 19),
 * CH32V and GD32VF103. What is written to PR and RLR is there after up to five of its own clocks, and is not
 * to be written again before.
 */
#include "models.h"

enum { KR = 0x00, PR = 0x04, RLR = 0x08, SR = 0x0C, WINR = 0x10 };
enum { RELOAD = 0xAAAA, UNLOCK = 0x5555, START = 0xCCCC };

enum { PVU = 1u << 0, RVU = 1u << 1 };
#define UPDATE_CLOCKS 5

struct iwdg {
    /* As they are, and as they were written. */
    uint32_t prescaler, reload, new_prescaler, new_reload, status;
    bool runs, open;
    /* In nanoseconds, as its clock goes on when the core's changes. */
    uint64_t barks_ns, updated_ns;
};

static uint64_t clocks_ns(const struct device *device, uint64_t count)
{
    return count * 1000000000 / device_option(device, "lsi", 40000);
}

static void restart(const struct device *device)
{
    struct iwdg *iwdg = device->state;
    uint64_t counts = (UINT64_C(4) << iwdg->prescaler) * (iwdg->reload + UINT64_C(1));

    iwdg->barks_ns = machine_ns() + clocks_ns(device, counts);
}

static void reset(struct device *device)
{
    struct iwdg *iwdg = device->state;

    iwdg->reload = iwdg->new_reload = 0xFFF;
}

static uint32_t read(struct device *device, uint32_t offset)
{
    const struct iwdg *iwdg = device->state;

    return offset == PR ? iwdg->prescaler : offset == RLR ? iwdg->reload
           : offset == SR ? iwdg->status : 0;
}

static void update(struct device *device, uint32_t flag)
{
    struct iwdg *iwdg = device->state;

    if ((iwdg->status & flag) != 0) {
        machine_complain("the watchdog is written before it has taken what was written", device->base);
    }
    iwdg->status |= flag;
    iwdg->updated_ns = machine_ns() + clocks_ns(device, UPDATE_CLOCKS);
}

static void write(struct device *device, uint32_t offset, uint32_t value)
{
    struct iwdg *iwdg = device->state;

    if (offset == KR) {
        iwdg->open = value == UNLOCK;
        iwdg->runs = iwdg->runs || value == START;
        if (value == RELOAD || value == START) {
            restart(device);
        }
    } else if (!iwdg->open && offset != SR) {
        machine_complain("the watchdog is written while it is locked", device->base + offset);
    } else if (offset == PR) {
        update(device, PVU);
        iwdg->new_prescaler = (value & 7) > 6 ? 6 : value & 7;
    } else if (offset == RLR) {
        update(device, RVU);
        iwdg->new_reload = value & 0xFFF;
    }
}

static uint64_t due(const struct device *device)
{
    const struct iwdg *iwdg = device->state;

    uint64_t ns = iwdg->runs ? iwdg->barks_ns : NEVER;

    ns = iwdg->status != 0 && iwdg->updated_ns < ns ? iwdg->updated_ns : ns;
    return ns == NEVER ? NEVER : machine_cycle_of(ns);
}

/* What is left of the count goes on at the new pace. */
static void take_over(struct iwdg *iwdg)
{
    uint64_t left = iwdg->barks_ns > machine_ns() ? iwdg->barks_ns - machine_ns() : 0;

    iwdg->barks_ns = machine_ns() + (left << iwdg->new_prescaler >> iwdg->prescaler);
    iwdg->prescaler = iwdg->new_prescaler;
    iwdg->reload = iwdg->new_reload;
    iwdg->status = 0;
}

static void step(struct device *device)
{
    struct iwdg *iwdg = device->state;

    if (iwdg->status != 0 && iwdg->updated_ns <= machine_ns()) {
        take_over(iwdg);
    } else {
        restart(device);
        machine_ask_reset();
    }
}

const struct model iwdg_model = {
    .kind = "iwdg", .state_bytes = sizeof(struct iwdg), .reset = reset, .read = read, .write = write,
    .due = due, .step = step, .goes_on = true};
