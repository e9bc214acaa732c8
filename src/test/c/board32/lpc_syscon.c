/*
 * Clocks and power of the LPC800 series. `old=1`: LPC81x, UM10601 4.6, and LPC82x, UM10800 5.6; else LPC84x,
 * UM11029, and LPC80x, UM11045 (`slow=1`: no PLL, a watchdog's oscillator of 1 MHz), whose registers are those
 * of the maker's descriptions. The internal oscillator has 12 MHz after a reset; no crystal.
 *   on=, power=      SYSAHBCLKCTRL and PDRUNCFG after a reset
 *   switched=        the bits of PDRUNCFG that are not reserved
 */
#include "lpc.h"

enum { PLLCTRL = 0x08, PLLSTAT = 0x0C, WDTOSCCTRL = 0x24, NEW_SELECT = 0x48, NEW_UPDATE = 0x4C, NEW_DIV = 0x58,
       ADCCLKDIV = 0x68, SCTCLKSEL = 0x6C, OLD_SELECT = 0x70, SCTCLKDIV = 0x70, OLD_UPDATE = 0x74, OLD_DIV = 0x78,
       LPOSCCLKEN = 0x7C, ON = 0x80, UART0CLKSEL = 0x90, UARTCLKDIV = 0x94, I2C0CLKSEL = 0xA4, FRG0DIV = 0xD0,
       FRG0MULT = 0xD4, FRG0CLKSEL = 0xD8, UARTFRGDIV = 0xF0, UARTFRGMULT = 0xF4, STARTERP1 = 0x214,
       PDSLEEPCFG = 0x230, PDAWAKECFG = 0x234, PDRUNCFG = 0x238, LAST = 0x3FC };
enum { OSCILLATOR_AND_FLASH = 7, BOD_PD = 1u << 3, WDT_PD = 1u << 6, PLL_PD = 1u << 7, MEMORIES = 0x16 };

#define OSCILLATOR_HZ 12000000u
/* Data sheets of LPC81x, LPC82x and LPC84x, "PLL", lock time at most; from memory. */
#define LOCK_NS 100000

struct syscon {
    uint32_t words[LAST / 4 + 1];
    bool from_pll, locked;
    uint64_t locked_at;
};

static const struct device *syscon_device;

static uint32_t word(uint32_t offset)
{
    return ((const struct syscon *)syscon_device->state)->words[offset / 4];
}

static bool is_old(void)
{
    return device_option(syscon_device, "old", 0) != 0;
}

static bool is_slow(void)
{
    return device_option(syscon_device, "slow", 0) != 0;
}

static uint32_t pll_hz(void)
{
    return OSCILLATOR_HZ * ((word(PLLCTRL) & 31) + 1);
}

static uint32_t main_hz(void)
{
    return ((const struct syscon *)syscon_device->state)->from_pll ? pll_hz() : OSCILLATOR_HZ;
}

static void set_clock(void)
{
    uint32_t divider = word(is_old() ? OLD_DIV : NEW_DIV);

    if (divider == 0 || divider > 255) {
        machine_complain("the divider of the system clock is not 1 to 255", syscon_device->base);
        divider = 1;
    }
    machine_run_at(main_hz() / divider);
}

/* "System PLL functional description": the oscillator inside has 156 to 320 MHz, what comes out less than 100. */
static void check_pll(void)
{
    uint64_t inside = (uint64_t)pll_hz() * (2u << (word(PLLCTRL) >> 5 & 3));

    if (inside < 156000000 || inside > 320000000 || pll_hz() >= 100000000) {
        machine_complain("the PLL is out of its range", syscon_device->base + PLLCTRL);
    }
}

static double fraction(uint32_t div_at, uint32_t mult_at)
{
    if (word(mult_at) != 0 && word(div_at) != 0xFF) {
        machine_complain("the fractional divider needs 255 in its DIV", syscon_device->base + div_at);
    }
    return 1 + (word(mult_at) & 0xFF) / 256.0;
}

/* FCLKSEL: 0 oscillator, 1 main clock, 2 fractional divider 0, 7 none. */
static double selected(uint32_t select)
{
    static const double none = 0;
    double from_frg = word(FRG0CLKSEL) == 1 ? main_hz() : word(FRG0CLKSEL) == 0 ? OSCILLATOR_HZ : none;

    switch (select) {
    case 0:
        return OSCILLATOR_HZ;
    case 1:
        return main_hz();
    case 2:
        return from_frg / fraction(FRG0DIV, FRG0MULT);
    default:
        return none;
    }
}

static double sct_hz(void)
{
    uint32_t by = word(SCTCLKDIV) & 0xFF;

    if (is_old()) {
        return machine_hz();
    }
    return by == 0 || word(SCTCLKSEL) > 1 ? 0 : (word(SCTCLKSEL) == 0 ? OSCILLATOR_HZ : main_hz()) / (double)by;
}

/* FREQSEL, bits 8:5, in steps of 50 kHz; DIVSEL below: UM10601 4.6.6, UM10800 5.6.6. */
static double watchdog_hz(void)
{
    static const uint8_t steps[] = {0, 12, 21, 28, 35, 42, 48, 54, 60, 65, 70, 75, 80, 84, 88, 92};
    uint32_t control = word(WDTOSCCTRL);

    if ((word(PDRUNCFG) & WDT_PD) != 0) {
        return 0;
    }
    if (is_slow()) {
        return (word(LPOSCCLKEN) & 1) != 0 ? 1000000 : 0;
    }
    return steps[control >> 5 & 15] * 50000.0 / (2 * ((control & 31) + 1));
}

/* The PMU's oscillator; in LPC80x it is the one that the watchdog has, too. */
static double wake_hz(void)
{
    struct device *pmu = machine_device("pmu");

    if (is_slow()) {
        return (word(PDRUNCFG) & WDT_PD) == 0 && (word(LPOSCCLKEN) & 2) != 0 && lpc_sleeps_with(6) ? 1000000 : 0;
    }
    return (pmu->model->read(pmu, 0x14) & LPC_LPOSCEN) != 0 ? 10000 : 0;
}

double lpc_hz(enum lpc_clock clock)
{
    switch (clock) {
    case LPC_BUS:
        return is_old() ? machine_hz() : selected(word(I2C0CLKSEL));
    case LPC_SERIAL:
        if (!is_old()) {
            return selected(word(UART0CLKSEL));
        }
        return word(UARTCLKDIV) == 0 ? 0 : main_hz() / (double)word(UARTCLKDIV) / fraction(UARTFRGDIV, UARTFRGMULT);
    case LPC_SCT:
        return sct_hz();
    case LPC_WAKE:
        return wake_hz();
    default:
        return watchdog_hz();
    }
}

double lpc_cycles(const struct device *device, enum lpc_clock clock, double ticks)
{
    double hz = lpc_hz(clock);

    if (hz == 0) {
        machine_complain("a peripheral that has no clock is to work", device->base);
        hz = OSCILLATOR_HZ;
    }
    return ticks * machine_hz() / hz;
}

bool lpc_powered(unsigned bit)
{
    return (word(PDRUNCFG) >> bit & 1) == 0;
}

bool lpc_sleeps_with(unsigned bit)
{
    return (word(PDSLEEPCFG) >> bit & 1) == 0;
}

bool lpc_wakes_by(unsigned bit)
{
    return (word(STARTERP1) >> bit & 1) != 0;
}

static void reset(struct device *device)
{
    struct syscon *syscon = device->state;

    syscon_device = device;
    syscon->words[(is_old() ? OLD_DIV : NEW_DIV) / 4] = 1;
    syscon->words[ON / 4] = device_option(device, "on", 0);
    syscon->words[PDRUNCFG / 4] = device_option(device, "power", 0);
    syscon->words[PDAWAKECFG / 4] = syscon->words[PDRUNCFG / 4];
    syscon->words[PDSLEEPCFG / 4] = 0xFFFF;
    syscon->words[WDTOSCCTRL / 4] = 0xA0;
    if (!is_old()) {
        syscon->words[UART0CLKSEL / 4] = syscon->words[I2C0CLKSEL / 4] = 7;
    }
    set_clock();
}

static uint32_t read(struct device *device, uint32_t offset)
{
    const struct syscon *syscon = device->state;

    return offset == PLLSTAT ? syscon->locked : offset <= LAST ? syscon->words[offset / 4] : 0;
}

static bool is_known(uint32_t offset)
{
    static const uint16_t old[] = {PLLCTRL, WDTOSCCTRL, OLD_SELECT, OLD_UPDATE, OLD_DIV, ON, UARTCLKDIV,
                                   UARTFRGDIV, UARTFRGMULT, PDRUNCFG, STARTERP1, PDSLEEPCFG, PDAWAKECFG, 0};
    static const uint16_t new[] = {PLLCTRL, WDTOSCCTRL, NEW_SELECT, NEW_UPDATE, NEW_DIV, ADCCLKDIV, SCTCLKSEL,
                                   SCTCLKDIV, ON, UART0CLKSEL, I2C0CLKSEL, FRG0DIV, FRG0MULT, FRG0CLKSEL,
                                   PDRUNCFG, STARTERP1, PDSLEEPCFG, PDAWAKECFG, 0};
    static const uint16_t slow[] = {NEW_DIV, ADCCLKDIV, LPOSCCLKEN, ON, UART0CLKSEL, I2C0CLKSEL, FRG0DIV,
                                    FRG0MULT, FRG0CLKSEL, PDRUNCFG, STARTERP1, PDSLEEPCFG, PDAWAKECFG, 0};

    for (const uint16_t *each = is_old() ? old : is_slow() ? slow : new; *each != 0; each++) {
        if (*each == offset) {
            return true;
        }
    }
    return false;
}

static void write_power(struct device *device, uint32_t value)
{
    struct syscon *syscon = device->state;
    uint32_t changed = value ^ syscon->words[PDRUNCFG / 4];

    if ((changed & ~device_option(device, "switched", 0)) != 0) {
        machine_complain("reserved bits of PDRUNCFG are changed, or what the program runs on", device->base);
    }
    syscon->words[PDRUNCFG / 4] = value;
    if ((changed & PLL_PD) != 0 && !is_slow()) {
        syscon->locked = false;
        if ((value & PLL_PD) == 0) {
            check_pll();
            syscon->locked_at = machine_cycle() + machine_cycles_in(LOCK_NS);
        }
    }
}

/* A source is taken when the update bit goes from 0 to 1. Only oscillator and PLL are known. */
static void update(struct device *device, uint32_t old, uint32_t value)
{
    struct syscon *syscon = device->state;
    uint32_t select = word(is_old() ? OLD_SELECT : NEW_SELECT);

    if ((value & 1) == 0 || (old & 1) != 0) {
        return;
    }
    if (select != 0 && (select != (is_old() ? 3u : 1u) || !syscon->locked)) {
        machine_complain("the main clock is to come from a PLL that is not locked, or from elsewhere", device->base);
    }
    syscon->from_pll = select != 0;
}

static void write(struct device *device, uint32_t offset, uint32_t value)
{
    struct syscon *syscon = device->state;
    uint32_t old = offset <= LAST ? syscon->words[offset / 4] : 0;

    if (!is_known(offset)) {
        machine_complain("a write to SYSCON that has no model", device->base + offset);
    } else if (offset == PDRUNCFG) {
        write_power(device, value);
        return;
    } else if (offset == ON && (old & MEMORIES & ~value) != 0) {
        machine_complain("the clock of a memory is switched off", device->base + offset);
    } else if (offset == PDSLEEPCFG && ((value ^ old) & ~(uint32_t)(BOD_PD | WDT_PD)) != 0) {
        machine_complain("reserved bits of PDSLEEPCFG are changed", device->base + offset);
    } else if (offset == PLLCTRL && (word(PDRUNCFG) & PLL_PD) == 0) {
        machine_complain("the PLL is set while it is on", device->base + offset);
    } else if (offset == WDTOSCCTRL && (value >> 5 & 15) == 0) {
        machine_complain("the watchdog's oscillator has no frequency", device->base + offset);
    }
    if (offset <= LAST) {
        syscon->words[offset / 4] = value;
    }
    if (offset == (is_old() ? OLD_UPDATE : NEW_UPDATE)) {
        update(device, old, value);
    }
    if (offset == (is_old() ? OLD_DIV : NEW_DIV) || offset == (is_old() ? OLD_UPDATE : NEW_UPDATE)) {
        set_clock();
    }
}

static uint64_t due(const struct device *device)
{
    const struct syscon *syscon = device->state;

    return lpc_powered(7) && !is_slow() && !syscon->locked ? syscon->locked_at : NEVER;
}

static void step(struct device *device)
{
    ((struct syscon *)device->state)->locked = true;
}

/*
 * UM10601 5.7.6: the main clock has to be the oscillator, and what then has power is in PDAWAKECFG. A PLL locks
 * anew.
 */
static void stop(struct device *device)
{
    struct syscon *syscon = device->state;

    if (syscon->from_pll || (word(PDAWAKECFG) & OSCILLATOR_AND_FLASH) != 0) {
        machine_complain("the part does not wake up as it goes to sleep, by its oscillator", device->base);
    }
    syscon->words[PDRUNCFG / 4] = word(PDAWAKECFG);
    syscon->locked = false;
    syscon->locked_at = machine_cycle() + machine_cycles_in(LOCK_NS);
}

const struct model lpc_syscon_model = {
    .kind = "lpc_syscon", .state_bytes = sizeof(struct syscon), .reset = reset, .read = read,
    .write = write, .due = due, .step = step, .stop = stop};
