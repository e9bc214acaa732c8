/*
 * nRF51: serial port, sending (reference manual v3.0, chapter UART), converter (ADC), and the
 * controller of the flash (NVMC).
 */
#include "nrf.h"

#include <inttypes.h>
#include <stdio.h>
#include <string.h>

#include "flash.h"
#include "memory.h"

#define BITS 10

enum { STARTTX = 0x008, STOPTX = 0x00C, TXDRDY = 0x11C, PSELTXD = 0x50C, TXD = 0x51C, BAUDRATE = 0x524 };
enum { UART_ON = 4 };

struct uart {
    struct nrf nrf;
    bool started, sending;
    uint8_t byte;
    uint64_t done_at;
};

/* BAUDRATE is the rate in 2^-32 of the clock. */
static uint64_t bit_cycles(const struct device *device)
{
    uint32_t rate = nrf_get(device, BAUDRATE);

    return rate == 0 ? NEVER / BITS : ((UINT64_C(1) << 32) + rate / 2) / rate;
}

static void uart_write(struct device *device, uint32_t offset, uint32_t value)
{
    struct uart *uart = device->state;

    if (offset == STARTTX || offset == STOPTX) {
        if (offset == STOPTX && uart->sending) {
            machine_complain("the sender is stopped within a character", device->base);
        }
        uart->started = offset == STARTTX;
    } else if (offset == TXD) {
        if (!uart->started || uart->sending || nrf_get(device, NRF_ENABLE) != UART_ON) {
            machine_complain("a character is written that cannot be sent", device->base);
            return;
        }
        uart->byte = (uint8_t)value;
        uart->sending = true;
        uart->done_at = machine_cycle() + BITS * bit_cycles(device);
    } else {
        if (offset == PSELTXD && nrf_get(device, NRF_ENABLE) != 0) {
            machine_complain("PSELTXD is written while the port is on", device->base);
        }
        nrf_write(device, offset, value);
    }
}

static uint64_t uart_due(const struct device *device)
{
    const struct uart *uart = device->state;

    return uart->sending ? uart->done_at : NEVER;
}

static void uart_step(struct device *device)
{
    struct uart *uart = device->state;

    printf("serial %" PRIu64 " %u %" PRIu64 "\n", machine_ns() / 1000, uart->byte,
           bit_cycles(device) * UINT64_C(1000000000) / machine_hz());
    uart->sending = false;
    nrf_event(device, TXDRDY);
}

static bool uart_needs_clock(const struct device *device)
{
    return ((const struct uart *)device->state)->started;
}

const struct model nrf_uart_model = {
    .kind = "nrf_uart", .state_bytes = sizeof(struct uart), .read = nrf_read, .write = uart_write,
    .due = uart_due, .step = uart_step, .asks = nrf_asks,
    .needs_clock = uart_needs_clock};

enum { ADC_START = 0x000, ADC_STOP = 0x004, ADC_END = 0x100, ADC_CONFIG = 0x504, ADC_RESULT = 0x508 };
/* Ten bits, input and supply by three, no reference from outside; product specification: 68 us. */
#define KNOB_CONFIG 0x6Au
#define CONVERSION_NS 68000

struct adc {
    struct nrf nrf;
    bool converts;
    uint64_t done_at;
};

static void adc_write(struct device *device, uint32_t offset, uint32_t value)
{
    struct adc *adc = device->state;
    uint32_t config = nrf_get(device, ADC_CONFIG);

    if (offset == ADC_START) {
        if (nrf_get(device, NRF_ENABLE) != 1 || (config & 0xFFFF00FF) != KNOB_CONFIG ||
            __builtin_popcount(config >> 8 & 0xFF) != 1) {
            machine_complain("a conversion that is not one of the supply's share", device->base);
        }
        adc->converts = true;
        adc->done_at = machine_cycle() + machine_cycles_in(CONVERSION_NS);
    } else if (offset == ADC_STOP) {
        adc->converts = false;
    } else {
        nrf_write(device, offset, value);
    }
}

static uint64_t adc_due(const struct device *device)
{
    const struct adc *adc = device->state;

    return adc->converts ? adc->done_at : NEVER;
}

static void adc_step(struct device *device)
{
    uint32_t code = (machine_knob_mv << 10) / SUPPLY_MV;

    ((struct adc *)device->state)->converts = false;
    *nrf_at(device, ADC_RESULT) = code > 1023 ? 1023 : code;
    nrf_event(device, ADC_END);
}

const struct model nrf_adc_model = {
    .kind = "nrf_adc", .state_bytes = sizeof(struct adc), .read = nrf_read, .write = adc_write,
    .due = adc_due, .step = adc_step, .asks = nrf_asks};

enum { READY = 0x400, CONFIG = 0x504, ERASEPAGE = 0x508 };
enum { WRITES = 1, ERASES = 2 };
/* Product specification, at most. The core would stand still; here it must look at READY. */
#define WRITE_NS 46300
#define ERASE_NS 22300000

struct nvmc {
    struct nrf nrf;
    uint64_t done_at;
};

static void nvmc_reset(struct device *device)
{
    *nrf_at(device, READY) = 1;
}

static void busy(struct device *device, uint64_t ns)
{
    *nrf_at(device, READY) = 0;
    ((struct nvmc *)device->state)->done_at = machine_cycle() + machine_cycles_in(ns);
}

static uint64_t nvmc_due(const struct device *device)
{
    return nrf_get(device, READY) == 0 ? ((const struct nvmc *)device->state)->done_at : NEVER;
}

static void nvmc_step(struct device *device)
{
    *nrf_at(device, READY) = 1;
}

static void nvmc_write(struct device *device, uint32_t offset, uint32_t value)
{
    uint32_t page = device_option(device, "page", 1024);

    if (nrf_get(device, READY) == 0) {
        machine_complain("NVMC is written while it is busy", device->base + offset);
    } else if (offset == ERASEPAGE) {
        uint8_t *memory = core_memory(value, page);

        if (memory == NULL || value % page != 0 || nrf_get(device, CONFIG) != ERASES) {
            machine_complain("a page is erased that cannot be", value);
            return;
        }
        memset(memory, 0xFF, page);
        busy(device, ERASE_NS);
    } else {
        nrf_write(device, offset, value);
    }
}

static bool nvmc_takes(struct device *device, uint32_t address, unsigned bytes, const uint8_t *old)
{
    bool good = bytes == 4 && address % 4 == 0 && nrf_get(device, CONFIG) == WRITES &&
                memcmp(old, "\xFF\xFF\xFF\xFF", 4) == 0 && nrf_get(device, READY) != 0;

    if (good) {
        busy(device, WRITE_NS);
    }
    return good;
}

const struct model nrf_nvmc_model = {
    .kind = "nrf_nvmc", .state_bytes = sizeof(struct nvmc), .reset = nvmc_reset, .read = nrf_read,
    .write = nvmc_write, .due = nvmc_due, .step = nvmc_step, .takes = nvmc_takes};
