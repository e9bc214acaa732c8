/*
 * Clocks of SAM D10, D11, D20 and D21: data sheet of SAM D21 (DS40001882), "PM", "GCLK", "SYSCTRL",
 * and "NVM Software Calibration Area Mapping". The core runs from generator 0, that from OSC8M.
 */
#include "models.h"
#include "nvic.h"
#include "samd.h"

enum { APBCMASK = 0x20 };

struct pm {
    uint32_t mask;
};

static void pm_reset(struct device *device)
{
    ((struct pm *)device->state)->mask = device_option(device, "mask", 0x10000);
}

static uint32_t pm_read(struct device *device, uint32_t offset)
{
    return offset == APBCMASK ? ((struct pm *)device->state)->mask : 0;
}

static void pm_write(struct device *device, uint32_t offset, uint32_t value)
{
    if (offset == APBCMASK) {
        ((struct pm *)device->state)->mask = value;
    } else {
        machine_complain("a register of the PM that is not modelled", device->base + offset);
    }
}

const struct model pm_model = {.kind = "pm", .state_bytes = sizeof(struct pm), .reset = pm_reset,
                               .read = pm_read, .write = pm_write};

enum { STATUS = 0x1, CLKCTRL = 0x2, GENCTRL = 0x4, GENDIV = 0x8 };
enum { GENERATORS = 16, CLOCKS = 64, CLKEN = 1u << 14, GENEN = 1u << 16, DIVSEL = 1u << 20 };
enum { OSCULP32K = 3, OSC8M = 6 };

struct gclk {
    uint32_t control[GENERATORS], divide[GENERATORS], clocks[CLOCKS];
};

static void gclk_reset(struct device *device)
{
    ((struct gclk *)device->state)->control[0] = GENEN | OSC8M << 8;
}

static void gclk_write(struct device *device, uint32_t offset, uint32_t value, unsigned bytes)
{
    struct gclk *gclk = device->state;

    if (offset == CLKCTRL && bytes == 2) {
        gclk->clocks[value & 63] = value;
    } else if (offset == GENCTRL && bytes == 4) {
        gclk->control[value & 15] = value;
    } else if (offset == GENDIV && bytes == 4) {
        /* Generator 2 has five bits for it, the others eight and more. */
        gclk->divide[value & 15] = value >> 8 & ((value & 15) == 2 ? 0x1F : 0xFFFF);
    } else {
        machine_complain("a write that GCLK does not know", device->base + offset);
    }
}

static uint32_t gclk_read(struct device *device, uint32_t offset, unsigned bytes)
{
    (void)device;
    (void)offset;
    (void)bytes;
    return 0;
}

static uint32_t clock_of(const struct device *device)
{
    const struct gclk *gclk = machine_device("gclk")->state;

    return gclk->clocks[device_option(device, "gclk", 0)];
}

bool samd_clock_goes_on(const struct device *device)
{
    const struct gclk *gclk = machine_device("gclk")->state;

    return (gclk->control[clock_of(device) >> 8 & 15] >> 8 & 31) == OSCULP32K;
}

double samd_clock(const struct device *device)
{
    const struct gclk *gclk = machine_device("gclk")->state;
    uint32_t clock = clock_of(device);
    unsigned generator = clock >> 8 & 15;
    uint32_t control = gclk->control[generator], divide = gclk->divide[generator];
    double source = samd_clock_goes_on(device) ? 32768 : machine_hz();

    if ((clock & CLKEN) == 0 || (control & GENEN) == 0) {
        machine_complain("a peripheral without its generic clock", device->base);
        return 1;
    }
    if ((control & DIVSEL) != 0) {
        return source / (double)(2u << divide);
    }
    return divide < 2 ? source : source / divide;
}

const struct model gclk_model = {
    .kind = "gclk", .state_bytes = sizeof(struct gclk), .reset = gclk_reset,
    .read_bytes = gclk_read, .write_bytes = gclk_write};

enum { OSC8M_REGISTER = 0x20 };
#define OSC8M_AFTER_RESET 0x87070382u
#define OSC8M_NEVER_CHANGED 0xCFFF00C2u

struct sysctrl {
    uint32_t osc8m;
};

static void set_clock(struct sysctrl *sysctrl)
{
    machine_run_at(8000000u >> (sysctrl->osc8m >> 8 & 3));
}

static void sysctrl_reset(struct device *device)
{
    struct sysctrl *sysctrl = device->state;

    sysctrl->osc8m = OSC8M_AFTER_RESET;
    set_clock(sysctrl);
}

static uint32_t sysctrl_read(struct device *device, uint32_t offset)
{
    return offset == OSC8M_REGISTER ? ((struct sysctrl *)device->state)->osc8m : 0;
}

/* The factory's calibration is in the same register. */
static void sysctrl_write(struct device *device, uint32_t offset, uint32_t value)
{
    struct sysctrl *sysctrl = device->state;

    if (offset != OSC8M_REGISTER || ((value ^ sysctrl->osc8m) & OSC8M_NEVER_CHANGED) != 0) {
        machine_complain("more of SYSCTRL is written than the divider", device->base + offset);
        return;
    }
    sysctrl->osc8m = value;
    set_clock(sysctrl);
}

/* The maker's support says that a tick may interrupt before RAM is awake. */
static void stop(struct device *device)
{
    if (nvic_tick_asks()) {
        machine_complain("the tick interrupts in Standby", device->base);
    }
}

const struct model sysctrl_model = {
    .kind = "sysctrl", .state_bytes = sizeof(struct sysctrl), .reset = sysctrl_reset,
    .read = sysctrl_read, .write = sysctrl_write, .stop = stop};

/* Bits 34:27 are the converter's linearity, 37:35 its bias; all others are ones here. */
static uint32_t calibration_read(struct device *device, uint32_t offset)
{
    uint64_t row = UINT64_MAX << 38 | (uint64_t)CALIBRATION_BIAS << 35 |
                   (uint64_t)CALIBRATION_LINEARITY << 27 | ((1u << 27) - 1);

    (void)device;
    return (uint32_t)(row >> 8 * offset);
}

const struct model calibration_model = {.kind = "calibration", .read = calibration_read};
