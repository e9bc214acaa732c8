/*
 * The self wake-up timer of the LPC800 series, and its power control: UM10601 13 and 5.6; UM10800, UM11029 and
 * UM11045 alike. Only counting down once by the low-power oscillator has a model.
 */
#include "lpc.h"

enum { PCON = 0x00, DPDCTRL = 0x14, DEEP_SLEEP = 1, POWER_DOWN = 2 };

struct pmu {
    uint32_t mode, control;
};

static uint32_t pmu_read(struct device *device, uint32_t offset)
{
    const struct pmu *pmu = device->state;

    return offset == PCON ? pmu->mode : offset == DPDCTRL ? pmu->control : 0;
}

static void pmu_write(struct device *device, uint32_t offset, uint32_t value)
{
    struct pmu *pmu = device->state;

    if (offset == PCON && value <= POWER_DOWN) {
        pmu->mode = value;
    } else if (offset == DPDCTRL && (value & ~(uint32_t)LPC_LPOSCEN) == 0) {
        pmu->control = value;
    } else {
        machine_complain("a write to the PMU that has no model", device->base + offset);
    }
}

static void pmu_stop(struct device *device)
{
    const struct pmu *pmu = device->state;

    if (pmu->mode != DEEP_SLEEP && pmu->mode != POWER_DOWN) {
        machine_complain("SLEEPDEEP without a mode in PCON", device->base);
    }
}

const struct model lpc_pmu_model = {
    .kind = "lpc_pmu", .state_bytes = sizeof(struct pmu), .read = pmu_read, .write = pmu_write, .stop = pmu_stop};

enum { CTRL = 0x00, COUNT = 0x0C, CLKSEL = 1, ALARMFLAG = 2, CLEARCTR = 4 };

struct wkt {
    bool slow, counts, alarmed;
    uint64_t zero_ns;
};

static void start(struct device *device, uint32_t count)
{
    struct wkt *wkt = device->state;
    double hz = lpc_hz(LPC_WAKE);

    if (wkt->counts || !wkt->slow || hz == 0) {
        machine_complain("the wake-up timer is started while it counts, or without its clock", device->base);
        return;
    }
    wkt->counts = count != 0;
    wkt->zero_ns = machine_ns() + (uint64_t)(count * 1e9 / hz);
}

static void write(struct device *device, uint32_t offset, uint32_t value)
{
    struct wkt *wkt = device->state;

    if (offset == CTRL) {
        wkt->slow = (value & CLKSEL) != 0;
        wkt->alarmed = wkt->alarmed && (value & ALARMFLAG) == 0;
        wkt->counts = wkt->counts && (value & CLEARCTR) == 0;
    } else if (offset == COUNT) {
        start(device, value);
    } else {
        machine_complain("a register of the wake-up timer that has no model", device->base + offset);
    }
}

static uint32_t read(struct device *device, uint32_t offset)
{
    const struct wkt *wkt = device->state;

    return offset == CTRL ? (wkt->slow ? CLKSEL : 0) | (wkt->alarmed ? ALARMFLAG : 0) : 0;
}

static uint64_t due(const struct device *device)
{
    const struct wkt *wkt = device->state;

    return wkt->counts ? machine_cycle_of(wkt->zero_ns) : NEVER;
}

static void step(struct device *device)
{
    struct wkt *wkt = device->state;

    wkt->counts = false;
    wkt->alarmed = true;
}

static unsigned asks(const struct device *device)
{
    return ((const struct wkt *)device->state)->alarmed;
}

static void stop(struct device *device)
{
    if (!lpc_wakes_by(LPC_WAKES_WKT)) {
        machine_complain("the wake-up timer is not to wake the part", device->base);
    }
}

const struct model lpc_wkt_model = {
    .kind = "lpc_wkt", .state_bytes = sizeof(struct wkt), .read = read, .write = write, .due = due, .step = step,
    .goes_on = true, .stop = stop, .asks = asks};
