/*
 * Reset and clock control with CR, CFGR and the enable registers as in RM0091 (STM32F0), 6.4, RM0008
 * (STM32F1), 7.3, and the CH32V003 reference manual, 3.4; and memory for registers that do nothing.
 */
#include "models.h"

enum { CR = 0x00, CFGR = 0x04, CSR = 0x24, LAST = 0x40 };
enum { HSION = 1u << 0, HSIRDY = 1u << 1, HSEON = 1u << 16, HSERDY = 1u << 17, PLLON = 1u << 24,
       PLLRDY = 1u << 25, LSION = 1u << 0, LSIRDY = 1u << 1 };

struct rcc {
    uint32_t registers[LAST / 4 + 1];
};

/* The multiplier in bits 21:18, from 2 on, of half the internal clock; or doubled, in CH32V003. */
static uint32_t pll_hz(const struct device *device, uint32_t cfgr)
{
    uint32_t hsi = device_option(device, "hsi", 8000000);

    if (device_option(device, "doubler", 0) != 0) {
        return 2 * hsi;
    }
    return hsi / 2 * ((cfgr >> 18 & 15) + 2);
}

/* HPRE, bits 7:4. Below 8: no division, or, in CH32V003, by one more. */
static uint32_t divider(const struct device *device, uint32_t cfgr)
{
    static const uint32_t above[] = {2, 4, 8, 16, 64, 128, 256, 512};
    uint32_t hpre = cfgr >> 4 & 15;

    if (hpre >= 8) {
        return above[hpre - 8];
    }
    return device_option(device, "fine", 0) != 0 ? hpre + 1 : 1;
}

static void set_clock(struct device *device)
{
    const uint32_t *registers = ((struct rcc *)device->state)->registers;
    uint32_t cfgr = registers[CFGR / 4];
    bool pll = (cfgr & 3) == 2 && (registers[CR / 4] & PLLON) != 0;
    uint32_t source = pll ? pll_hz(device, cfgr) : device_option(device, "hsi", 8000000);

    machine_run_at(source / divider(device, cfgr));
}

static void reset(struct device *device)
{
    uint32_t *registers = ((struct rcc *)device->state)->registers;

    registers[CR / 4] = HSION;
    registers[CFGR / 4] = device_option(device, "cfgr", 0);
    registers[0x14 / 4] = device_option(device, "ahb", 0x14);
    set_clock(device);
}

static uint32_t read(struct device *device, uint32_t offset)
{
    const uint32_t *registers = ((struct rcc *)device->state)->registers;
    uint32_t value = offset <= LAST ? registers[offset / 4] : 0;

    if (offset == CR) {
        value &= ~(uint32_t)(HSIRDY | HSERDY | PLLRDY);
        value |= (value & HSION) << 1 | (value & PLLON) << 1;
    } else if (offset == CFGR) {
        value = (value & ~0xCu) | (value & 3) << 2;
    } else if (offset == CSR) {
        value |= (value & LSION) << 1;
    }
    return value;
}

static void write(struct device *device, uint32_t offset, uint32_t value)
{
    if (offset <= LAST) {
        ((struct rcc *)device->state)->registers[offset / 4] = value;
    }
    if (offset == CR || offset == CFGR) {
        set_clock(device);
    }
}

const struct model rcc_f_model = {
    .kind = "rcc_f", .state_bytes = sizeof(struct rcc), .reset = reset, .read = read, .write = write};

struct memory {
    uint32_t words[0x100];
};

static uint32_t memory_read(struct device *device, uint32_t offset)
{
    return ((struct memory *)device->state)->words[offset / 4 & 0xFF];
}

static void memory_write(struct device *device, uint32_t offset, uint32_t value)
{
    ((struct memory *)device->state)->words[offset / 4 & 0xFF] = value;
}

const struct model memory_model = {
    .kind = "memory", .state_bytes = sizeof(struct memory), .read = memory_read, .write = memory_write};
