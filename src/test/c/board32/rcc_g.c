/*
 * Reset and clock control of newer generations: RM0454 (STM32G0x0) and RM0490 (STM32C0x1),
 * section 5 each: CR, CFGR, PLLCFGR; RM0377 (STM32L0x1), section 7, which begins on MSI. Clocks for
 * the whole chip only; prescalers of buses stay at 1.
 */
#include "models.h"

#define WORDS 0x28
#define PLL_ON (1u << 24)
#define PLL_READY (1u << 25)

struct rcc {
    uint32_t words[WORDS];
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

enum { G_CR = 0x00, G_CFGR = 0x08, G_PLLCFGR = 0x0C, G_CSR = 0x60 };
#define G_HSI_READY (1u << 10)

/* RM0454, 5.4.4: HSI by M, times N, by R. */
static uint32_t g_pll_hz(struct device *device)
{
    uint32_t pll = *at(device, G_PLLCFGR);
    uint32_t hz = device_option(device, "hsi", 16000000) / ((pll >> 4 & 7) + 1);

    return hz * (pll >> 8 & 0x7F) / ((pll >> 29) + 1);
}

static void g_set_clock(struct device *device)
{
    uint32_t cfgr = *at(device, G_CFGR), cr = *at(device, G_CR);
    uint32_t hz = device_option(device, "hsi", 16000000) >> (cr >> 11 & 7);

    if ((cfgr & 7) == 2 && (cr & PLL_ON) != 0) {
        hz = g_pll_hz(device);
    }
    machine_run_at(divided(hz, cfgr >> 8 & 15));
}

static void g_reset(struct device *device)
{
    *at(device, G_CR) = device_option(device, "cr", 0x100);
    *at(device, G_PLLCFGR) = 0x1000;
    *at(device, 0x38) = 0x100;
    g_set_clock(device);
}

static uint32_t g_read(struct device *device, uint32_t offset)
{
    uint32_t value = *at(device, offset);

    if (offset == G_CR) {
        value = (value & ~PLL_READY) | G_HSI_READY | ((value & PLL_ON) << 1);
    } else if (offset == G_CFGR) {
        value = (value & ~0x38u) | (value & 7) << 3;
    } else if (offset == G_CSR) {
        value |= (value & 1) << 1;
    }
    return value;
}

static void g_write(struct device *device, uint32_t offset, uint32_t value)
{
    *at(device, offset) = value;
    if (offset == G_CR || offset == G_CFGR) {
        g_set_clock(device);
    }
}

const struct model rcc_g_model = {
    .kind = "rcc_g", .state_bytes = sizeof(struct rcc), .reset = g_reset, .read = g_read, .write = g_write};

enum { L_CR = 0x00, L_ICSCR = 0x04, L_CFGR = 0x0C, L_CSR = 0x50 };
enum { HSI_ON = 1u << 0, HSI_READY = 1u << 2, HSI_BY_4 = 1u << 3, MSI_READY = 1u << 9 };
#define HSI_HZ 16000000u

/* PLLMUL 21:18, PLLDIV 23:22: RM0377, 7.3.3. */
static uint32_t l_pll_hz(uint32_t cfgr, uint32_t hsi_hz)
{
    static const uint32_t times[] = {3, 4, 6, 8, 12, 16, 24, 32, 48};

    return hsi_hz * times[(cfgr >> 18 & 15) % 9] / ((cfgr >> 22 & 3) + 1);
}

static void l_set_clock(struct device *device)
{
    uint32_t cfgr = *at(device, L_CFGR), cr = *at(device, L_CR);
    uint32_t hsi_hz = (cr & HSI_BY_4) != 0 ? HSI_HZ / 4 : HSI_HZ;
    /* MSIRANGE 15:13: 65.536 kHz times 2 to its power; 2.097 MHz after a reset. */
    uint32_t hz = 65536u << (*at(device, L_ICSCR) >> 13 & 7);

    if ((cfgr & 3) == 1) {
        hz = hsi_hz;
    } else if ((cfgr & 3) == 3) {
        hz = l_pll_hz(cfgr, hsi_hz);
    }
    machine_run_at(divided(hz, cfgr >> 4 & 15));
}

static void l_reset(struct device *device)
{
    *at(device, L_CR) = 0x300;
    *at(device, L_ICSCR) = 5u << 13;
    *at(device, 0x30) = 0x100;
    l_set_clock(device);
}

static uint32_t l_read(struct device *device, uint32_t offset)
{
    uint32_t value = *at(device, offset);

    if (offset == L_CR) {
        value = (value & ~(uint32_t)(HSI_READY | PLL_READY)) | MSI_READY |
                ((value & HSI_ON) << 2) | ((value & PLL_ON) << 1);
        value |= (value & HSI_BY_4) << 1;
    } else if (offset == L_CFGR) {
        value = (value & ~0xCu) | (value & 3) << 2;
    } else if (offset == L_CSR) {
        value |= (value & 1) << 1;
    }
    return value;
}

static void l_write(struct device *device, uint32_t offset, uint32_t value)
{
    *at(device, offset) = value;
    if (offset == L_CR || offset == L_CFGR || offset == L_ICSCR) {
        l_set_clock(device);
    }
}

const struct model rcc_l_model = {
    .kind = "rcc_l", .state_bytes = sizeof(struct rcc), .reset = l_reset, .read = l_read, .write = l_write};
