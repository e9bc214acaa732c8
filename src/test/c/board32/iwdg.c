/* The independent watchdog: RM0091 (STM32F0), section 24; the same in STM32F1 and CH32V. */
#include "models.h"

enum { KR = 0x00, PR = 0x04, RLR = 0x08, SR = 0x0C, WINR = 0x10 };
enum { RELOAD = 0xAAAA, UNLOCK = 0x5555, START = 0xCCCC };

struct iwdg {
    uint32_t prescaler, reload;
    bool runs, open;
    uint64_t barks_at;
};

static void restart(const struct device *device)
{
    struct iwdg *iwdg = device->state;
    uint64_t counts = (UINT64_C(4) << iwdg->prescaler) * (iwdg->reload + UINT64_C(1));

    iwdg->barks_at = machine_cycle() + counts * machine_hz() / device_option(device, "lsi", 40000);
}

static void reset(struct device *device)
{
    ((struct iwdg *)device->state)->reload = 0xFFF;
}

static uint32_t read(struct device *device, uint32_t offset)
{
    const struct iwdg *iwdg = device->state;

    return offset == PR ? iwdg->prescaler : offset == RLR ? iwdg->reload : 0;
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
        iwdg->prescaler = (value & 7) > 6 ? 6 : value & 7;
    } else if (offset == RLR) {
        iwdg->reload = value & 0xFFF;
    }
}

static uint64_t due(const struct device *device)
{
    const struct iwdg *iwdg = device->state;

    return iwdg->runs ? iwdg->barks_at : NEVER;
}

static void step(struct device *device)
{
    restart(device);
    machine_ask_reset();
}

const struct model iwdg_model = {
    .kind = "iwdg", .state_bytes = sizeof(struct iwdg), .reset = reset, .read = read, .write = write,
    .due = due, .step = step};
