/*
 * Power of CH32V003, with the auto-wakeup unit: its reference manual, section 2. The unit counts the slow
 * oscillator, divided, up to the window, and begins again; each time it pulses line 9 of EXTI.
 */
#include "exti.h"
#include "models.h"

enum { CTLR = 0x00, AWUCSR = 0x08, AWUWR = 0x0C, AWUPSC = 0x10, PDDS = 1u << 1, AWUEN = 1u << 1 };
enum { RSTSCKR = 0x24, LSION = 1u << 0 };
#define LINE 9

struct awu {
    uint32_t control, status, window, prescaler;
    uint64_t next_ns;
};

static uint64_t length_ns(const struct device *device)
{
    static const uint32_t by[] = {1, 1, 2, 4, 8, 16, 32, 64, 128, 256, 512, 1024, 2048, 4096, 10240, 61440};
    const struct awu *awu = device->state;

    return UINT64_C(1000000000) * by[awu->prescaler] * awu->window / device_option(device, "lsi", 128000);
}

static bool runs(const struct device *device)
{
    const struct awu *awu = device->state;
    struct device *rcc = machine_device("rcc");

    return (awu->status & AWUEN) != 0 && awu->window != 0 &&
           (rcc->model->read(rcc, RSTSCKR) & LSION) != 0;
}

static uint32_t read(struct device *device, uint32_t offset)
{
    const struct awu *awu = device->state;

    return offset == CTLR ? awu->control : offset == AWUCSR ? awu->status
           : offset == AWUWR ? awu->window : offset == AWUPSC ? awu->prescaler : 0;
}

static void write(struct device *device, uint32_t offset, uint32_t value)
{
    struct awu *awu = device->state;

    if (offset == CTLR) {
        awu->control = value;
    } else if (offset == AWUCSR) {
        bool starts = (value & ~awu->status & AWUEN) != 0;

        awu->status = value & AWUEN;
        if (starts && !runs(device)) {
            machine_complain("the wake-up unit is started without a window or an oscillator", device->base);
        }
        awu->next_ns = starts ? machine_ns() + length_ns(device) : awu->next_ns;
    } else if (runs(device)) {
        machine_complain("the wake-up unit is set while it counts", device->base + offset);
    } else if (offset == AWUWR) {
        awu->window = value & 0x3F;
    } else if (offset == AWUPSC) {
        awu->prescaler = value & 15;
    }
}

static uint64_t due(const struct device *device)
{
    return runs(device) ? machine_cycle_of(((const struct awu *)device->state)->next_ns) : NEVER;
}

static void step(struct device *device)
{
    ((struct awu *)device->state)->next_ns += length_ns(device);
    exti_pulse(LINE);
}

static void stop(struct device *device)
{
    if ((((const struct awu *)device->state)->control & PDDS) == 0) {
        machine_complain("deep sleep without PDDS is not Standby", device->base);
    }
}

const struct model awu_model = {
    .kind = "awu", .state_bytes = sizeof(struct awu), .read = read, .write = write, .due = due,
    .step = step, .goes_on = true, .stop = stop};
