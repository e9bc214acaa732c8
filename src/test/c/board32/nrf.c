/*
 * nRF51: what peripherals share, PPI, and POWER with CLOCK: the 16 MHz
 * after a reset, and the slow clock. Addresses: the maker's header nrf51.h.
 */
#include "nrf.h"

#define CHANNELS 16

enum { CHEN = 0x500, CHENSET = 0x504, CHENCLR = 0x508, CHANNEL = 0x510 };

uint32_t *nrf_at(struct device *device, uint32_t offset)
{
    return &((struct nrf *)device->state)->words[offset % NRF_BYTES / 4];
}

uint32_t nrf_get(const struct device *device, uint32_t offset)
{
    return ((const struct nrf *)device->state)->words[offset % NRF_BYTES / 4];
}

/* Anomaly 73: an event of a timer reaches a task of GPIOTE for certain only where this register is 1. */
static void check_timer(const struct device *from, uint32_t task)
{
    const struct device *pins = machine_device("gpiote");

    if (from->model == &nrf_timer_model && task - pins->base < pins->bytes &&
        nrf_get(from, 0xC0C) != 1) {
        machine_complain("a timer moves a pin without 1 in 0xC0C (anomaly 73)", from->base);
    }
}

void nrf_event(struct device *device, uint32_t offset)
{
    struct device *ppi = machine_device("ppi");

    *nrf_at(device, offset) = 1;
    for (unsigned i = 0; i < CHANNELS; i++) {
        uint32_t task = nrf_get(ppi, CHANNEL + 8 * i + 4);

        if ((nrf_get(ppi, CHEN) >> i & 1) != 0 &&
            nrf_get(ppi, CHANNEL + 8 * i) == device->base + offset) {
            check_timer(device, task);
            machine_write(task, 1, 4);
        }
    }
}

uint32_t nrf_read(struct device *device, uint32_t offset)
{
    return offset == NRF_INTENCLR ? nrf_get(device, NRF_INTENSET) : nrf_get(device, offset);
}

void nrf_write(struct device *device, uint32_t offset, uint32_t value)
{
    if (offset == NRF_INTENSET) {
        *nrf_at(device, NRF_INTENSET) |= value;
    } else if (offset == NRF_INTENCLR) {
        *nrf_at(device, NRF_INTENSET) &= ~value;
    } else if (offset >= NRF_EVENTS && offset < NRF_EVENTS_END && value != 0) {
        machine_complain("an event is written with something else than 0", device->base + offset);
    } else if (offset >= NRF_EVENTS) {
        *nrf_at(device, offset) = value;
    }
}

unsigned nrf_asks(const struct device *device)
{
    uint32_t enabled = nrf_get(device, NRF_INTENSET);

    for (unsigned i = 0; i < 32; i++) {
        if ((enabled >> i & 1) != 0 && nrf_get(device, NRF_EVENTS + 4 * i) != 0) {
            return 1;
        }
    }
    return 0;
}

static void ppi_write(struct device *device, uint32_t offset, uint32_t value)
{
    if (offset == CHENSET) {
        *nrf_at(device, CHEN) |= value;
    } else if (offset == CHENCLR) {
        *nrf_at(device, CHEN) &= ~value;
    } else {
        *nrf_at(device, offset) = value;
    }
}

const struct model nrf_ppi_model = {
    .kind = "nrf_ppi", .state_bytes = sizeof(struct nrf), .read = nrf_read, .write = ppi_write};

static void clock_reset(struct device *device)
{
    (void)device;
    machine_run_at(16000000);
}

enum { LFCLKSTART = 0x008, LFCLKSTARTED = 0x104, LFCLKSRC = 0x518 };

/* The slow clock is there at once; of its sources only the RC oscillator, 0. */
static void clock_write(struct device *device, uint32_t offset, uint32_t value)
{
    if (offset == LFCLKSTART) {
        if (nrf_get(device, LFCLKSRC) != 0) {
            machine_complain("the slow clock is started from a crystal, which is not there", device->base);
        }
        nrf_event(device, LFCLKSTARTED);
    } else {
        nrf_write(device, offset, value);
    }
}

const struct model nrf_clock_model = {
    .kind = "nrf_clock", .state_bytes = sizeof(struct nrf), .reset = clock_reset, .read = nrf_read,
    .write = clock_write};
