/*
 * What is the RP2040's own beside its two-wire controller: resets, clocks, pins, UART (PL011), PWM,
 * converter and watchdog. RP2040 data sheet: 2.14, 2.15, 2.16, 2.18, 2.3.1, 2.19, 4.2, 4.5, 4.9, 4.7.
 */
#include <stdlib.h>
#include <string.h>

#include "line.h"
#include "models.h"

#define CRYSTAL_HZ 12000000u
/* The ring oscillator has 1.8 to 12 MHz: 2.17. */
#define RING_HZ 6500000u

static uint32_t read_of(const char *name, uint32_t offset)
{
    struct device *device = machine_device(name);

    return device->model->read(device, offset);
}

/* A block that is put into reset forgets everything. Offset 8 says what is out of it. */
struct resets {
    uint32_t held;
};

static void resets_reset(struct device *device)
{
    ((struct resets *)device->state)->held = 0x01FFFFFF;
}

static uint32_t resets_read(struct device *device, uint32_t offset)
{
    const struct resets *resets = device->state;

    return offset == 8 ? ~resets->held & 0x01FFFFFF : resets->held;
}

static void resets_write(struct device *device, uint32_t offset, uint32_t value)
{
    struct resets *resets = device->state;
    struct device *other;

    if (offset != 0) {
        return;
    }
    for (unsigned n = 0; (other = machine_nth(n)) != NULL; n++) {
        if ((other->clock_mask & value & ~resets->held) != 0) {
            memset(other->state, 0, other->model->state_bytes);
            if (other->model->reset != NULL) {
                other->model->reset(other);
            }
        }
    }
    resets->held = value;
}

const struct model rp_resets_model = {
    .kind = "rp_resets", .state_bytes = sizeof(struct resets), .reset = resets_reset,
    .read = resets_read, .write = resets_write};

/* Crystal: 4 ms with the count that it has after a reset. PLL: a tenth of a millisecond. */
struct source {
    uint32_t registers[8];
    uint64_t ready_ns;
};

enum { XOSC_STATUS = 4, PLL_CS = 0, PLL_PWR = 4, PLL_FBDIV = 8, PLL_PRIM = 12 };

static bool is_ready(const struct source *source)
{
    return source->ready_ns != 0 && machine_ns() >= source->ready_ns;
}

static uint32_t xosc_read(struct device *device, uint32_t offset)
{
    const struct source *source = device->state;

    machine_read_moving();
    return offset == XOSC_STATUS ? (is_ready(source) ? 1u << 31 : 0) : source->registers[offset / 4 & 7];
}

static void xosc_write(struct device *device, uint32_t offset, uint32_t value)
{
    struct source *source = device->state;

    source->registers[offset / 4 & 7] = value;
    source->ready_ns = source->registers[0] == 0xFABAA0 ? machine_ns() + 4180000 : 0;
}

static uint32_t pll_read(struct device *device, uint32_t offset)
{
    const struct source *source = device->state;

    machine_read_moving();
    return offset == PLL_CS ? (is_ready(source) ? 1u << 31 : 0) : source->registers[offset / 4 & 7];
}

static void pll_reset(struct device *device)
{
    ((struct source *)device->state)->registers[PLL_PWR / 4] = 0x2D;
}

static void pll_write(struct device *device, uint32_t offset, uint32_t value)
{
    struct source *source = device->state;
    uint64_t vco;

    source->registers[offset / 4 & 7] = value;
    vco = (uint64_t)source->registers[PLL_FBDIV / 4] * CRYSTAL_HZ;
    if ((source->registers[PLL_PWR / 4] & 0x21) != 0) {
        source->ready_ns = 0;
    } else if (source->ready_ns == 0) {
        source->ready_ns = machine_ns() + 100000;
        if (vco < 750000000 || vco > 1600000000) {
            machine_complain("the PLL's oscillator is out of its range", device->base);
        }
    }
}

const struct model rp_xosc_model = {.kind = "rp_xosc", .state_bytes = sizeof(struct source),
                                    .read = xosc_read, .write = xosc_write};
const struct model rp_pll_model = {.kind = "rp_pll", .state_bytes = sizeof(struct source),
                                   .reset = pll_reset, .read = pll_read, .write = pll_write};

enum { REF_CTRL = 0x30, SYS_CTRL = 0x3C, SYS_DIV = 0x40, PERI_CTRL = 0x48, ADC_CTRL = 0x60 };

struct clocks {
    uint32_t registers[0x100 / 4];
};

static uint32_t pll_hz(void)
{
    uint32_t prim = read_of("pll_sys", PLL_PRIM);
    uint32_t divider = (prim >> 16 & 7) * (prim >> 12 & 7);

    if ((read_of("pll_sys", PLL_CS) & 1u << 31) == 0 || (read_of("pll_sys", PLL_PWR) & 8) != 0) {
        machine_complain("a switch to a PLL that does not run", 0);
    }
    return divider == 0 ? 1 : (uint32_t)((uint64_t)CRYSTAL_HZ * read_of("pll_sys", PLL_FBDIV) / divider);
}

static void set_clock(struct clocks *clocks)
{
    uint32_t hz = RING_HZ;

    if ((clocks->registers[REF_CTRL / 4] & 3) == 2) {
        hz = CRYSTAL_HZ;
        if ((read_of("xosc", XOSC_STATUS) & 1u << 31) == 0) {
            machine_complain("a switch to a crystal that does not run", 0);
        }
    }
    if ((clocks->registers[SYS_CTRL / 4] & 1) != 0) {
        hz = pll_hz();
    }
    machine_run_at((uint32_t)((uint64_t)hz * 256 / clocks->registers[SYS_DIV / 4]));
}

static void clocks_reset(struct device *device)
{
    struct clocks *clocks = device->state;

    clocks->registers[SYS_DIV / 4] = 0x100;
    machine_run_at(RING_HZ);
}

static uint32_t clocks_read(struct device *device, uint32_t offset)
{
    return ((struct clocks *)device->state)->registers[offset / 4 & 0x3F];
}

static void clocks_write(struct device *device, uint32_t offset, uint32_t value)
{
    struct clocks *clocks = device->state;

    clocks->registers[offset / 4 & 0x3F] = value;
    if (offset == REF_CTRL || offset == SYS_CTRL || offset == SYS_DIV) {
        set_clock(clocks);
    }
}

const struct model rp_clocks_model = {
    .kind = "rp_clocks", .state_bytes = sizeof(struct clocks), .reset = clocks_reset,
    .read = clocks_read, .write = clocks_write};

static bool has_clock(uint32_t offset)
{
    return (read_of("clocks", offset) & 1u << 11) != 0;
}

/* Pins: single-cycle I/O, with what IO_BANK0 and PADS_BANK0 say of each. */
struct sio {
    uint32_t out, enabled, fed;
};

enum { GPIO_IN = 0x04, GPIO_OUT = 0x10, GPIO_OE = 0x20, FUNCTION_SIO = 5, FUNCTION_NONE = 31 };

static struct pin_state sio_pin(const struct device *device, unsigned bit)
{
    const struct sio *sio = device->state;
    uint32_t function = read_of("io_bank0", 4 + 8 * bit) & 31;
    uint32_t pad = read_of("pads_bank0", 4 + 4 * bit);
    bool output = (sio->enabled >> bit & 1) != 0;
    enum pin_use use = function == FUNCTION_SIO ? (output ? PIN_OUTPUT : PIN_INPUT) : PIN_FUNCTION;

    return (struct pin_state){
        .use = function == FUNCTION_NONE || function == 0 || (pad & 0x80) != 0 ? PIN_ANALOG : use,
        .latch = (sio->out >> bit & 1) != 0, .pull_up = (pad & 8) != 0, .function = function};
}

static void sio_feed(struct device *device, unsigned bit, bool high)
{
    struct sio *sio = device->state;

    sio->fed = high ? sio->fed | 1u << bit : sio->fed & ~(1u << bit);
}

static uint32_t sio_levels(const struct device *device)
{
    const struct sio *sio = device->state;
    uint32_t levels = 0;

    for (unsigned bit = 0; bit < 30; bit++) {
        struct pin_state pin = sio_pin(device, bit);
        bool reads = (read_of("pads_bank0", 4 + 4 * bit) & 0x40) != 0;
        uint32_t from = pin.use == PIN_OUTPUT ? sio->out : sio->fed;

        levels |= reads ? from & 1u << bit : 0;
    }
    return levels;
}

static uint32_t sio_read(struct device *device, uint32_t offset)
{
    const struct sio *sio = device->state;

    return offset == GPIO_IN ? sio_levels(device) : offset == GPIO_OUT ? sio->out : sio->enabled;
}

/* As it is, set, clear, flip: four registers each. */
static void sio_write(struct device *device, uint32_t offset, uint32_t value)
{
    struct sio *sio = device->state;
    uint32_t *word = (offset & 0xF0) == GPIO_OUT ? &sio->out : &sio->enabled;

    switch (offset & 0xC) {
    case 0x0:
        *word = value;
        break;
    case 0x4:
        *word |= value;
        break;
    case 0x8:
        *word &= ~value;
        break;
    default:
        *word ^= value;
        break;
    }
}

const struct model rp_sio_model = {.kind = "rp_sio", .state_bytes = sizeof(struct sio),
                                   .read = sio_read, .write = sio_write, .pin = sio_pin,
                                   .feed = sio_feed};

/* UART: sends eight bits without parity through a FIFO of 32. */
struct uart {
    uint32_t registers[0x40 / 4];
    struct line line;
};

enum { UARTDR = 0x00, UARTFR = 0x18, IBRD = 0x24, FBRD = 0x28, LCR_H = 0x2C, UARTCR = 0x30 };

/* 4.2.7.1: 16 samples a bit. */
static double uart_bit(const struct uart *uart)
{
    return (uart->registers[IBRD / 4] * 64.0 + uart->registers[FBRD / 4]) / 4;
}

static void uart_write(struct device *device, uint32_t offset, uint32_t value)
{
    struct uart *uart = device->state;

    if (offset != UARTDR) {
        uart->registers[offset / 4 & 15] = value;
        return;
    }
    if ((uart->registers[UARTCR / 4] & 0x101) != 0x101 || (uart->registers[LCR_H / 4] & 0x60) != 0x60 ||
        !has_clock(PERI_CTRL) || uart->line.count == LINE_MOST) {
        machine_complain("a character is written that cannot be sent", device->base);
        return;
    }
    line_send(&uart->line, (uint8_t)value, uart_bit(uart));
}

static uint32_t uart_read(struct device *device, uint32_t offset)
{
    const struct uart *uart = device->state;

    return offset != UARTFR ? uart->registers[offset / 4 & 15]
                            : (uart->line.count == LINE_MOST ? 1u << 5 : 0) |
                                  (uart->line.count == 0 ? 1u << 7 : 1u << 3);
}

static uint64_t uart_due(const struct device *device)
{
    return line_due(&((const struct uart *)device->state)->line);
}

static void uart_step(struct device *device)
{
    struct uart *uart = device->state;

    line_end(&uart->line, uart_bit(uart));
}

static bool uart_drives(const struct device *device, const char *signal, bool *high)
{
    (void)device;
    *high = true;
    return strcmp(signal, "tx") == 0;
}

const struct model rp_uart_model = {
    .kind = "rp_uart", .state_bytes = sizeof(struct uart), .read = uart_read, .write = uart_write,
    .due = uart_due, .step = uart_step, .drives = uart_drives};

/* PWM: eight slices, of which only the first output is told from low. */
struct slice {
    uint32_t csr, div, ctr, cc, top;
    bool high;
    uint64_t edge_at;
};

struct pwm {
    struct slice slices[8];
};

static uint64_t pwm_cycles(const struct slice *slice, uint64_t counts)
{
    return counts * slice->div / 16;
}

static uint32_t *pwm_word(struct pwm *pwm, uint32_t offset)
{
    struct slice *slice = &pwm->slices[offset / 0x14 & 7];
    uint32_t *words[] = {&slice->csr, &slice->div, &slice->ctr, &slice->cc, &slice->top};

    return words[offset % 0x14 / 4];
}

static uint32_t pwm_read(struct device *device, uint32_t offset)
{
    return *pwm_word(device->state, offset);
}

static void pwm_write(struct device *device, uint32_t offset, uint32_t value)
{
    struct pwm *pwm = device->state;
    struct slice *slice = &pwm->slices[offset / 0x14 & 7];
    bool ran = (slice->csr & 1) != 0;

    *pwm_word(pwm, offset) = value;
    if (!ran && (slice->csr & 1) != 0) {
        slice->high = true;
        slice->edge_at = machine_cycle() + pwm_cycles(slice, slice->cc & 0xFFFF);
    }
}

static uint64_t pwm_due(const struct device *device)
{
    const struct pwm *pwm = device->state;
    uint64_t due = NEVER;

    for (unsigned i = 0; i < 8; i++) {
        if ((pwm->slices[i].csr & 1) != 0 && pwm->slices[i].edge_at < due) {
            due = pwm->slices[i].edge_at;
        }
    }
    return due;
}

static void pwm_step(struct device *device)
{
    struct pwm *pwm = device->state;

    for (unsigned i = 0; i < 8; i++) {
        struct slice *slice = &pwm->slices[i];
        uint32_t half = slice->cc & 0xFFFF;

        if ((slice->csr & 1) != 0 && slice->edge_at <= machine_cycle()) {
            slice->edge_at += pwm_cycles(slice, slice->high ? slice->top + UINT64_C(1) - half : half);
            slice->high = !slice->high;
        }
    }
}

/* The signal is the number of the slice. */
static bool pwm_drives(const struct device *device, const char *signal, bool *high)
{
    const struct pwm *pwm = device->state;

    *high = pwm->slices[strtoul(signal, NULL, 10) & 7].high;
    return true;
}

static void pwm_reset(struct device *device)
{
    struct pwm *pwm = device->state;

    for (unsigned i = 0; i < 8; i++) {
        pwm->slices[i].div = 0x10;
        pwm->slices[i].top = 0xFFFF;
    }
}

const struct model rp_pwm_model = {
    .kind = "rp_pwm", .state_bytes = sizeof(struct pwm), .reset = pwm_reset, .read = pwm_read,
    .write = pwm_write, .due = pwm_due, .step = pwm_step, .drives = pwm_drives};

/* Converter: 96 clocks of its own, which the crystal gives; all channels see the knob. */
struct adc {
    uint32_t cs, fcs, result, level;
    bool converts;
    uint64_t done_at;
};

enum { ADC_CS = 0x00, ADC_RESULT = 0x04, ADC_FCS = 0x08, ADC_FIFO = 0x0C };

static uint32_t adc_read(struct device *device, uint32_t offset)
{
    struct adc *adc = device->state;

    if (offset == ADC_CS) {
        return adc->cs | ((adc->cs & 1) != 0 && !adc->converts ? 0x100u : 0);
    }
    if (offset == ADC_FCS) {
        return adc->fcs | (adc->level == 0 ? 0x100u : 0) | adc->level << 16;
    }
    if (offset == ADC_FIFO) {
        adc->level -= adc->level == 0 ? 0 : 1;
    }
    return adc->result;
}

static void adc_write(struct device *device, uint32_t offset, uint32_t value)
{
    struct adc *adc = device->state;

    if (offset == ADC_FCS) {
        adc->fcs = value & 0xF;
    } else if (offset == ADC_CS) {
        adc->cs = value & 0x7003;
        if ((value & 4) != 0) {
            if ((value & 1) == 0 || !has_clock(ADC_CTRL)) {
                machine_complain("a conversion without power or clock", device->base);
            }
            adc->converts = true;
            adc->done_at = machine_cycle() + machine_cycles_in(8000);
        }
    }
}

static uint64_t adc_due(const struct device *device)
{
    const struct adc *adc = device->state;

    return adc->converts ? adc->done_at : NEVER;
}

static void adc_step(struct device *device)
{
    struct adc *adc = device->state;
    uint32_t code = (uint32_t)(((uint64_t)machine_knob_mv << 12) / SUPPLY_MV);

    adc->converts = false;
    adc->result = code > 0xFFF ? 0xFFF : code;
    adc->level += (adc->fcs & 1);
}

const struct model rp_adc_model = {.kind = "rp_adc", .state_bytes = sizeof(struct adc),
                                   .read = adc_read, .write = adc_write, .due = adc_due,
                                   .step = adc_step};

/* Watchdog: counts down twice a tick (erratum RP2040-E1), and resets what PSM's WDSEL says. */
struct watchdog {
    uint32_t control, tick, load;
    uint64_t barks_ns;
};

enum { DOG_CTRL = 0x00, DOG_LOAD = 0x04, DOG_TICK = 0x2C };

static uint32_t dog_read(struct device *device, uint32_t offset)
{
    const struct watchdog *dog = device->state;

    return offset == DOG_CTRL ? dog->control : offset == DOG_TICK ? dog->tick : 0;
}

static void dog_write(struct device *device, uint32_t offset, uint32_t value)
{
    struct watchdog *dog = device->state;

    if (offset == DOG_CTRL) {
        dog->control = value;
    } else if (offset == DOG_TICK) {
        dog->tick = value;
    } else if (offset == DOG_LOAD) {
        dog->load = value;
    }
    if (dog->load != 0 && offset == DOG_LOAD) {
        dog->barks_ns = machine_ns() + UINT64_C(500) * (dog->load & 0xFFFFFF);
    }
}

static uint64_t dog_due(const struct device *device)
{
    const struct watchdog *dog = device->state;
    bool runs = (dog->control & 1u << 30) != 0 && (dog->tick & 1u << 9) != 0;

    return runs ? machine_cycle_of(dog->barks_ns) : NEVER;
}

static void dog_step(struct device *device)
{
    struct watchdog *dog = device->state;

    dog->control = 0;
    if ((dog->tick & 0x1FF) != 12) {
        machine_complain("the watchdog's tick is no microsecond", device->base);
    }
    if ((read_of("psm", 8) & 0x1FFFF) == 0x1FFFC) {
        machine_ask_reset();
    } else {
        machine_complain("the watchdog does not reset the core, or stops its clock", device->base);
    }
}

const struct model rp_watchdog_model = {.kind = "rp_watchdog", .state_bytes = sizeof(struct watchdog),
                                        .read = dog_read, .write = dog_write, .due = dog_due,
                                        .step = dog_step};
