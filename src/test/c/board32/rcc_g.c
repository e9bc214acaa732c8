/*
 * Reset and clock control of STM32G0 (RM0454) and STM32C0 (RM0490), section 5 each: CR, CFGR, PLLCFGR.
 * No crystal; buses run at the core's clock.
 */
#include "models.h"

#define WORDS 0x28

enum { CR = 0x00, CFGR = 0x08, PLLCFGR = 0x0C, CSR = 0x60 };
enum { HSION = 1u << 8, HSIRDY = 1u << 10, PLLON = 1u << 24, PLLRDY = 1u << 25, PLLREN = 1u << 28 };
enum { SW = 7u, SW_PLL = 2u, PPRE = 7u << 12, PLLSRC = 3u, PLLSRC_HSI = 2u };

/* Data sheet of STM32G030, "PLL characteristics", at most: lock time, and what its oscillator takes and gives. */
#define LOCK_NS 40000
#define PLL_IN_LEAST 2660000u
#define PLL_IN_MOST 16000000u
#define PLL_VCO_LEAST 96000000u
#define PLL_VCO_MOST 344000000u

struct rcc {
    uint32_t words[WORDS];
    bool pll_ready;
    uint64_t locked_at;
};

static uint32_t *at(struct device *device, uint32_t offset)
{
    return &((struct rcc *)device->state)->words[offset / 4 % WORDS];
}

/* HPRE: no division below 8, then 2, 4, 8, 16, 64 and so on. */
static uint32_t divided(uint32_t hz, uint32_t hpre)
{
    static const uint32_t by[] = {2, 4, 8, 16, 64, 128, 256, 512};

    return hpre < 8 ? hz : hz / by[hpre & 7];
}

/* RM0454, 5.4.4: HSI by M, times N, by R. */
static uint32_t pll_hz(struct device *device)
{
    uint32_t pll = *at(device, PLLCFGR), n = pll >> 8 & 0x7F, r = pll >> 29;
    uint32_t in = device_option(device, "hsi", 16000000) / ((pll >> 4 & 7) + 1);
    uint64_t vco = (uint64_t)in * n;

    if ((pll & PLLSRC) != PLLSRC_HSI || (pll & PLLREN) == 0 || n < 8 || n > 86 || r == 0 ||
        in < PLL_IN_LEAST || in > PLL_IN_MOST || vco < PLL_VCO_LEAST || vco > PLL_VCO_MOST) {
        machine_complain("the PLL is set as it must not be", device->base + PLLCFGR);
    }
    return (uint32_t)(vco / (r + 1));
}

/* A source that is not ready is switched to when it is: RM0454, 5.2.6. */
static void set_clock(struct device *device)
{
    const struct rcc *rcc = device->state;
    uint32_t cfgr = *at(device, CFGR), cr = *at(device, CR);
    uint32_t hz = device_option(device, "hsi", 16000000) >> (cr >> 11 & 7);

    if ((cfgr & SW) == SW_PLL && rcc->pll_ready) {
        hz = pll_hz(device);
    }
    machine_run_at(divided(hz, cfgr >> 8 & 15));
}

static void reset(struct device *device)
{
    *at(device, CR) = device_option(device, "cr", HSION);
    *at(device, PLLCFGR) = 0x1000;
    *at(device, 0x38) = 0x100;
    set_clock(device);
}

static uint32_t read(struct device *device, uint32_t offset)
{
    const struct rcc *rcc = device->state;
    uint32_t value = *at(device, offset);

    if (offset == CR) {
        value = (value & ~(uint32_t)PLLRDY) | HSIRDY | (rcc->pll_ready ? PLLRDY : 0);
    } else if (offset == CFGR) {
        bool waits = (value & SW) == SW_PLL && !rcc->pll_ready;

        value = (value & ~0x38u) | (waits ? 0 : (value & SW) << 3);
    } else if (offset == CSR) {
        value |= (value & 1) << 1;
    }
    return value;
}

static void write_cr(struct device *device, uint32_t value)
{
    struct rcc *rcc = device->state;
    uint32_t changed = *at(device, CR) ^ value;

    if ((value & HSION) == 0) {
        machine_complain("the internal clock is switched off, which has no model", device->base);
    }
    if ((changed & value & PLLON) != 0) {
        if (device_option(device, "pll", 0) == 0) {
            machine_complain("this part has no PLL", device->base);
        }
        rcc->locked_at = machine_cycle() + machine_cycles_in(LOCK_NS);
    } else if ((changed & PLLON) != 0) {
        rcc->pll_ready = false;
    }
    *at(device, CR) = value;
}

static void write(struct device *device, uint32_t offset, uint32_t value)
{
    if (offset == CR) {
        write_cr(device, value);
    } else {
        if (offset == PLLCFGR && (*at(device, CR) & PLLON) != 0) {
            machine_complain("the PLL is set while it is on", device->base + PLLCFGR);
        }
        if (offset == CFGR && ((value & PPRE) != 0 || ((value & SW) != 0 && (value & SW) != SW_PLL))) {
            machine_complain("a crystal or a divided bus has no model", device->base + CFGR);
        }
        *at(device, offset) = value;
    }
    if (offset == CR || offset == CFGR) {
        set_clock(device);
    }
}

static uint64_t due(const struct device *device)
{
    const struct rcc *rcc = device->state;

    return (rcc->words[CR / 4] & PLLON) != 0 && !rcc->pll_ready ? rcc->locked_at : NEVER;
}

static void step(struct device *device)
{
    ((struct rcc *)device->state)->pll_ready = true;
    set_clock(device);
}

/* ADCSEL of CCIPR: the clock of the core, unless told otherwise: RM0454, 5.4.21. */
static uint32_t converter_hz(const struct device *device)
{
    (void)device;
    return machine_hz();
}

/* Deep sleep switches the PLL off; the clock is the internal one then, divided as before. */
static void stop(struct device *device)
{
    struct rcc *rcc = device->state;

    rcc->pll_ready = false;
    rcc->words[CR / 4] &= ~(uint32_t)PLLON;
    rcc->words[CFGR / 4] &= ~(uint32_t)SW;
    set_clock(device);
}

const struct model rcc_g_model = {
    .kind = "rcc_g", .state_bytes = sizeof(struct rcc), .reset = reset, .read = read, .write = write,
    .due = due, .step = step, .stop = stop, .converter_hz = converter_hz};
