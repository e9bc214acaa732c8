/*
 * Reset and clock control with CR, CFGR and the enable registers as in RM0091 (STM32F0), 6.4, RM0008
 * (STM32F1), 7.3, the CH32V003 reference manual, 3.4, CH32V103, 3.4, and GD32VF103 user manual, 5.3; and
 * memory for registers that do nothing. No crystal; buses run at the core's clock.
 */
#include "models.h"

enum { CR = 0x00, CFGR = 0x04, CSR = 0x24, LAST = 0x40 };
enum { HSION = 1u << 0, HSIRDY = 1u << 1, HSEON = 1u << 16, HSERDY = 1u << 17, PLLON = 1u << 24,
       PLLRDY = 1u << 25, LSION = 1u << 0, LSIRDY = 1u << 1 };
enum { SW = 3u, SW_HSE = 1u, SW_PLL = 2u, HPRE = 0xFu << 4, PPRE1 = 7u << 8, PLLSRC = 1u << 16,
       PLLMUL = 0xFu << 18 };

/* Data sheets, "PLL characteristics", lock time, at most. */
#define LOCK_NS 200000

struct rcc {
    uint32_t registers[LAST / 4 + 1];
    bool pll_ready;
    uint64_t locked_at;
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

/* A source that is not ready is switched to when it is: RM0008, 7.2.6. */
static void set_clock(struct device *device)
{
    const struct rcc *rcc = device->state;
    uint32_t cfgr = rcc->registers[CFGR / 4];
    bool pll = (cfgr & SW) == SW_PLL && rcc->pll_ready;
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
    const struct rcc *rcc = device->state;
    uint32_t value = offset <= LAST ? rcc->registers[offset / 4] : 0;

    if (offset == CR) {
        value &= ~(uint32_t)(HSIRDY | HSERDY | PLLRDY);
        value |= (value & HSION) << 1 | (rcc->pll_ready ? PLLRDY : 0);
    } else if (offset == CFGR) {
        bool waits = (value & SW) == SW_PLL && !rcc->pll_ready;

        value = (value & ~0xCu) | (waits ? 0 : (value & SW) << 2);
    } else if (offset == CSR) {
        value |= (value & LSION) << 1;
    }
    return value;
}

/* RM0008, 7.3.2: PLLMUL and PLLSRC are written while the PLL is off. */
static void check_cfgr(const struct device *device, uint32_t old, uint32_t value, bool pll_on)
{
    if (pll_on && ((old ^ value) & (PLLMUL | PLLSRC)) != 0) {
        machine_complain("the PLL is set while it is on", device->base + CFGR);
    }
    if ((value & SW) == SW_HSE || (value & SW) == 3 || (value & (PLLSRC | PPRE1)) != 0) {
        machine_complain("a crystal, a divided bus or a clock that is reserved", device->base + CFGR);
    }
}

/* RM0008, 7.3.1: the PLL cannot be switched off while it is the clock. */
static void write_cr(struct device *device, uint32_t value)
{
    struct rcc *rcc = device->state;
    uint32_t changed = rcc->registers[CR / 4] ^ value;

    if ((changed & PLLON) != 0 && (value & PLLON) == 0) {
        if ((rcc->registers[CFGR / 4] & SW) == SW_PLL) {
            machine_complain("the PLL is switched off while it is the clock", device->base);
        }
        rcc->pll_ready = false;
    } else if ((changed & PLLON) != 0) {
        rcc->locked_at = machine_cycle() + machine_cycles_in(LOCK_NS);
    }
    if ((value & HSION) == 0) {
        machine_complain("the internal clock is switched off, which has no model", device->base);
    }
    rcc->registers[CR / 4] = value;
}

static void write(struct device *device, uint32_t offset, uint32_t value)
{
    struct rcc *rcc = device->state;

    if (offset == CR) {
        write_cr(device, value);
    } else if (offset == CFGR) {
        check_cfgr(device, rcc->registers[CFGR / 4], value, (rcc->registers[CR / 4] & PLLON) != 0);
        rcc->registers[CFGR / 4] = value;
    } else if (offset <= LAST) {
        rcc->registers[offset / 4] = value;
    }
    if (offset == CR || offset == CFGR) {
        set_clock(device);
    }
}

static uint64_t due(const struct device *device)
{
    const struct rcc *rcc = device->state;

    return (rcc->registers[CR / 4] & PLLON) != 0 && !rcc->pll_ready ? rcc->locked_at : NEVER;
}

static void step(struct device *device)
{
    ((struct rcc *)device->state)->pll_ready = true;
    set_clock(device);
}

/* ADCPRE, bits 15:14, by 2, 4, 6 or 8: RM0008, 7.3.2; STM32F0 has a divider in the converter. */
static uint32_t converter_hz(const struct device *device)
{
    uint32_t cfgr = ((const struct rcc *)device->state)->registers[CFGR / 4];

    return machine_hz() / (2 * ((cfgr >> 14 & 3) + 1));
}

/* Deep sleep switches the PLL off; the clock is the internal one then, divided as before. */
static void stop(struct device *device)
{
    struct rcc *rcc = device->state;

    rcc->pll_ready = false;
    rcc->registers[CR / 4] &= ~(uint32_t)PLLON;
    rcc->registers[CFGR / 4] &= ~(uint32_t)SW;
    set_clock(device);
}

const struct model rcc_f_model = {
    .kind = "rcc_f", .state_bytes = sizeof(struct rcc), .reset = reset, .read = read, .write = write,
    .due = due, .step = step, .stop = stop, .converter_hz = converter_hz};

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
