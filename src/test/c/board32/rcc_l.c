/*
 * Clocks and power of STM32L0x1: RM0377, 7.3 (RCC, which begins on MSI) and 6.4 (PWR). What clock the
 * core may have, and how many wait states of flash, follows from the range of its voltage: 6.1.4, and the
 * table of clocks and wait states in 3.3.3. No crystal; buses run at the core's clock.
 */
#include "exti.h"
#include "models.h"

#define WORDS 0x28

enum { CR = 0x00, ICSCR = 0x04, CFGR = 0x0C, CSR = 0x50 };
enum { HSION = 1u << 0, HSIRDY = 1u << 2, HSIDIVEN = 1u << 3, MSION = 1u << 8, MSIRDY = 1u << 9,
       PLLON = 1u << 24, PLLRDY = 1u << 25 };
enum { SW = 3u, SW_MSI = 0, SW_HSI = 1, SW_PLL = 3, PPRE = 0x3Fu << 8, STOPWUCK = 1u << 15, PLLSRC = 1u << 16,
       PLL_BITS = 0x3Fu << 18 };
#define HSI_HZ 16000000u

/* Data sheet of STM32L011, at most: "HSI16 oscillator" and "PLL characteristics". */
#define HSI_START_NS 6000
#define LOCK_NS 160000

struct rcc {
    uint32_t words[WORDS];
    bool hsi_ready, pll_ready;
    uint64_t hsi_at, pll_at;
};

/* Range 1 to 3 of the voltage, that of VOS. */
static unsigned range(void)
{
    struct device *power = machine_device("pwr");

    return power->model->read(power, 0) >> 11 & 3;
}

static uint32_t word(const struct device *device, uint32_t offset)
{
    return ((const struct rcc *)device->state)->words[offset / 4];
}

static uint32_t divided(uint32_t hz, uint32_t hpre)
{
    static const uint32_t by[] = {2, 4, 8, 16, 64, 128, 256, 512};

    return hpre < 8 ? hz : hz / by[hpre & 7];
}

/* PLLMUL 21:18, PLLDIV 23:22; its oscillator gives 96, 48 or 24 MHz at most: RM0377, 7.3.3. */
static uint32_t pll_hz(const struct device *device, uint32_t hsi_hz)
{
    static const uint32_t times[] = {3, 4, 6, 8, 12, 16, 24, 32, 48};
    static const uint32_t most[] = {0, 96000000, 48000000, 24000000};
    uint32_t cfgr = word(device, CFGR), multiplier = cfgr >> 18 & 15, by = (cfgr >> 22 & 3) + 1;

    if (multiplier > 8 || by == 1 || (cfgr & PLLSRC) != 0 ||
        hsi_hz * times[multiplier % 9] > most[range()]) {
        machine_complain("the PLL is set as it must not be", device->base + CFGR);
    }
    return hsi_hz * times[multiplier % 9] / by;
}

/* Without and with a wait state, in the ranges of the voltage. */
static void check_range(const struct device *device, uint32_t hz)
{
    static const uint32_t without[] = {0, 16000000, 8000000, 4200000};
    static const uint32_t most[] = {0, 32000000, 16000000, 4200000};
    struct device *flash = machine_device("flash");

    if (range() == 0 || hz > most[range()]) {
        machine_complain("the clock is too fast for the voltage of the core", device->base);
    } else if (hz > without[range()] && (flash->model->read(flash, 0) & 1) == 0) {
        machine_complain("too few wait states of flash for the clock", flash->base);
    }
}

/* A source that is not ready is switched to when it is: RM0377, 7.2.6. */
static void set_clock(struct device *device)
{
    const struct rcc *rcc = device->state;
    uint32_t cfgr = word(device, CFGR);
    uint32_t hsi_hz = (word(device, CR) & HSIDIVEN) != 0 ? HSI_HZ / 4 : HSI_HZ;
    /* MSIRANGE 15:13: 65.536 kHz times 2 to its power; 2.097 MHz after a reset. */
    uint32_t hz = 65536u << (word(device, ICSCR) >> 13 & 7);

    if ((cfgr & SW) == SW_HSI && rcc->hsi_ready) {
        hz = hsi_hz;
    } else if ((cfgr & SW) == SW_PLL && rcc->pll_ready) {
        hz = pll_hz(device, hsi_hz);
    }
    hz = divided(hz, cfgr >> 4 & 15);
    check_range(device, hz);
    machine_run_at(hz);
}

static void reset(struct device *device)
{
    struct rcc *rcc = device->state;

    rcc->words[CR / 4] = MSION;
    rcc->words[ICSCR / 4] = 5u << 13;
    rcc->words[0x30 / 4] = 0x100;
    machine_run_at(65536u << 5);
}

static uint32_t read(struct device *device, uint32_t offset)
{
    const struct rcc *rcc = device->state;
    uint32_t value = rcc->words[offset / 4 % WORDS];

    if (offset == CR) {
        value = (value & ~(uint32_t)(HSIRDY | PLLRDY)) | MSIRDY | (rcc->hsi_ready ? HSIRDY : 0) |
                (rcc->pll_ready ? PLLRDY : 0) | (value & HSIDIVEN) << 1;
    } else if (offset == CFGR) {
        bool waits = ((value & SW) == SW_HSI && !rcc->hsi_ready) ||
                     ((value & SW) == SW_PLL && !rcc->pll_ready);

        value = (value & ~0xCu) | (waits ? 0 : (value & SW) << 2);
    } else if (offset == CSR) {
        value |= (value & 1) << 1;
    }
    return value;
}

/* RM0377, 7.3.1: the source of the PLL is on before the PLL is. */
static void write_cr(struct device *device, uint32_t value)
{
    struct rcc *rcc = device->state;
    uint32_t rises = value & ~rcc->words[CR / 4];

    if ((value & MSION) == 0) {
        machine_complain("MSI is switched off, which has no model", device->base);
    }
    if ((rises & HSION) != 0) {
        rcc->hsi_at = machine_cycle() + machine_cycles_in(HSI_START_NS);
    }
    if ((rises & PLLON) != 0) {
        if (!rcc->hsi_ready) {
            machine_complain("the PLL is switched on before its source is ready", device->base);
        }
        rcc->pll_at = machine_cycle() + machine_cycles_in(LOCK_NS);
    }
    rcc->hsi_ready = rcc->hsi_ready && (value & HSION) != 0;
    rcc->pll_ready = rcc->pll_ready && (value & PLLON) != 0;
    rcc->words[CR / 4] = value;
}

static void write(struct device *device, uint32_t offset, uint32_t value)
{
    struct rcc *rcc = device->state;

    if (offset == CR) {
        write_cr(device, value);
    } else {
        if (offset == CFGR && (rcc->words[CR / 4] & PLLON) != 0 &&
            ((value ^ rcc->words[CFGR / 4]) & (PLL_BITS | PLLSRC)) != 0) {
            machine_complain("the PLL is set while it is on", device->base + CFGR);
        }
        if (offset == CFGR && ((value & PPRE) != 0 || (value & SW) == 2)) {
            machine_complain("a crystal or a divided bus has no model", device->base + CFGR);
        }
        rcc->words[offset / 4 % WORDS] = value;
    }
    if (offset == CR || offset == CFGR || offset == ICSCR) {
        set_clock(device);
    }
}

static uint64_t hsi_due(const struct rcc *rcc)
{
    return (rcc->words[CR / 4] & HSION) != 0 && !rcc->hsi_ready ? rcc->hsi_at : NEVER;
}

static uint64_t pll_due(const struct rcc *rcc)
{
    return (rcc->words[CR / 4] & PLLON) != 0 && !rcc->pll_ready ? rcc->pll_at : NEVER;
}

static uint64_t due(const struct device *device)
{
    const struct rcc *rcc = device->state;

    return hsi_due(rcc) < pll_due(rcc) ? hsi_due(rcc) : pll_due(rcc);
}

static void step(struct device *device)
{
    struct rcc *rcc = device->state;

    rcc->hsi_ready = rcc->hsi_ready || hsi_due(rcc) <= machine_cycle();
    rcc->pll_ready = rcc->pll_ready || pll_due(rcc) <= machine_cycle();
    set_clock(device);
}

/* Of CFGR: the clock after Stop is HSI, or else MSI; all others are off: RM0377, "Stop mode". */
static void stop(struct device *device)
{
    struct rcc *rcc = device->state;
    bool by_hsi = (rcc->words[CFGR / 4] & STOPWUCK) != 0;

    rcc->pll_ready = false;
    rcc->words[CR / 4] &= ~(uint32_t)(PLLON | HSION);
    rcc->words[CR / 4] |= by_hsi ? HSION : 0;
    rcc->hsi_ready = by_hsi;
    rcc->words[CFGR / 4] &= ~(uint32_t)SW;
    rcc->words[CFGR / 4] |= by_hsi ? SW_HSI : SW_MSI;
    set_clock(device);
}

/* The converter's own clock is HSI: RM0377, 7.2; 0 while it is off. */
static uint32_t converter_hz(const struct device *device)
{
    return ((const struct rcc *)device->state)->hsi_ready ? HSI_HZ : 0;
}

const struct model rcc_l_model = {
    .kind = "rcc_l", .state_bytes = sizeof(struct rcc), .reset = reset, .read = read, .write = write,
    .due = due, .step = step, .stop = stop, .converter_hz = converter_hz};

enum { PWR_CR = 0x0, PWR_CSR = 0x4, CWUF = 1u << 2, PDDS = 1u << 1, VOS = 3u << 11,
       VOSF = 1u << 4 };
/* How long the regulator takes is not given in the manual. */
#define REGULATOR_NS 50000

struct power {
    uint32_t control;
    bool moves, woken;
    uint64_t there_at;
};

/* Range 2 after a reset: RM0377, 6.4.1. */
static void power_reset(struct device *device)
{
    ((struct power *)device->state)->control = 2u << 11;
}

static uint32_t power_read(struct device *device, uint32_t offset)
{
    const struct power *power = device->state;

    return offset == PWR_CR ? power->control : offset == PWR_CSR && power->moves ? VOSF : 0;
}

static void power_write(struct device *device, uint32_t offset, uint32_t value)
{
    struct power *power = device->state;

    if (offset != PWR_CR) {
        return;
    }
    if (power->moves || (value & VOS) == 0) {
        machine_complain("VOS is written while VOSF is set, or with what is forbidden", device->base);
    }
    power->moves = ((value ^ power->control) & VOS) != 0;
    power->there_at = machine_cycle() + machine_cycles_in(REGULATOR_NS);
    power->woken = power->woken && (value & CWUF) == 0;
    power->control = value & ~(uint32_t)CWUF;
}

/* PDDS would be Standby, which loses RAM; a wake-up that is not forgotten ends Stop at once: RM0377, 6.4.1. */
static void power_stop(struct device *device)
{
    const struct power *power = device->state;

    if ((power->control & PDDS) != 0 || power->woken) {
        machine_complain("deep sleep would be Standby, or end at once", device->base);
    }
}

void pwr_woken(void)
{
    struct device *device = machine_device("pwr");

    if (device != NULL && device->model == &pwr_l_model) {
        ((struct power *)device->state)->woken = true;
    }
}

static uint64_t power_due(const struct device *device)
{
    const struct power *power = device->state;

    return power->moves ? power->there_at : NEVER;
}

static void power_step(struct device *device)
{
    ((struct power *)device->state)->moves = false;
}

const struct model pwr_l_model = {
    .kind = "pwr_l", .state_bytes = sizeof(struct power), .reset = power_reset, .read = power_read,
    .write = power_write, .due = power_due, .step = power_step,
    .stop = power_stop};
