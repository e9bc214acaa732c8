/*
 * A timer of SAM D10, D11, D20 and D21: data sheet of SAM D21 (DS40001882), "TC". Counts 16 bits up to
 * CC0, starts over and turns its output WO0 (MFRQ); nothing else.
 */
#include "models.h"
#include "samd.h"

enum { CTRLA = 0x00, STATUS = 0x0F, CC0 = 0x18 };
enum { ENABLE = 1u << 1, MFRQ = 1u << 5, PRESCALER_PLACE = 8, MODELLED = 0x722 };

struct tc {
    uint32_t control, top;
    bool output;
    uint64_t turns_at;
};

static uint64_t round_cycles(const struct device *device)
{
    static const unsigned scales[] = {1, 2, 4, 8, 16, 64, 256, 1024};
    const struct tc *tc = device->state;
    double counts = (tc->top + 1.0) * scales[tc->control >> PRESCALER_PLACE & 7];

    return (uint64_t)(counts * machine_hz() / samd_clock(device));
}

/* What is protected while ENABLE is set may be written again as it is. */
static void write(struct device *device, uint32_t offset, uint32_t value, unsigned bytes)
{
    struct tc *tc = device->state;

    if (offset == CC0 && bytes == 2) {
        tc->top = value;
    } else if (offset != CTRLA || bytes != 2 || (value & ~(uint32_t)MODELLED) != 0 ||
               (value & MFRQ) == 0 || ((tc->control & ENABLE) != 0 && value != tc->control)) {
        machine_complain("a write that the timer does not know", device->base + offset);
    } else if (value != tc->control) {
        tc->control = value;
        tc->turns_at = machine_cycle() + round_cycles(device);
    }
}

static uint32_t read(struct device *device, uint32_t offset, unsigned bytes)
{
    const struct tc *tc = device->state;

    (void)bytes;
    return offset == CTRLA ? tc->control : offset == CC0 ? tc->top : 0;
}

static uint64_t due(const struct device *device)
{
    const struct tc *tc = device->state;

    return (tc->control & ENABLE) != 0 ? tc->turns_at : NEVER;
}

static void step(struct device *device)
{
    struct tc *tc = device->state;

    tc->output = !tc->output;
    tc->turns_at += round_cycles(device);
}

static bool drives(const struct device *device, const char *signal, bool *high)
{
    const struct tc *tc = device->state;

    (void)signal;
    *high = tc->output;
    return (tc->control & ENABLE) != 0;
}

const struct model tc_samd_model = {
    .kind = "tc_samd", .state_bytes = sizeof(struct tc), .read_bytes = read, .write_bytes = write,
    .due = due, .step = step, .drives = drives};
