/*
 * nRF51: pins (reference manual v3.0, chapter GPIO), and tasks on pins (GPIOTE). A peripheral names
 * its pins itself, so who has a pin is asked here.
 */
#include "nrf.h"

enum { OUT = 0x504, OUTSET = 0x508, OUTCLR = 0x50C, IN = 0x510, DIR = 0x514, PIN_CNF = 0x700 };
enum { CNF_OUTPUT = 1, CNF_NO_INPUT = 2, CNF_PULL = 12, CNF_PULL_UP = 12, CNF_DRIVE = 0x700,
       CNF_S0D1 = 0x600 };
enum { PSELSCL = 0x508, PSELSDA = 0x50C, PSELTXD = 0x50C, UART_ON = 4, TWI_ON = 5 };
enum { TASKS_OUT0 = 0x000, CONFIG0 = 0x510, MODE_TASK = 3, TOGGLES = 3 };

struct gpio {
    struct nrf nrf;
    uint32_t fed;
};

static uint32_t cnf(const struct device *device, unsigned bit)
{
    return nrf_get(device, PIN_CNF + 4 * bit);
}

static bool latch(const struct device *device, unsigned bit)
{
    return (nrf_get(device, OUT) >> bit & 1) != 0;
}

/* Reference manual, chapter TWI, "Pin configuration": inputs, S0D1. */
static struct pin_state of_bus(const struct device *device, unsigned bit, const char *signal)
{
    const struct device *twi = machine_device("twi0");
    struct pin_state state = {.use = PIN_OUTPUT, .open_drain = true};

    twi->model->drives(twi, signal, &state.latch);
    if ((cnf(device, bit) & (CNF_OUTPUT | CNF_NO_INPUT | CNF_DRIVE)) != CNF_S0D1) {
        machine_complain("a pin of TWI is not an input that can be pulled low", device->base);
    }
    return state;
}

static struct pin_state pin(const struct device *device, unsigned bit)
{
    const struct device *twi = machine_device("twi0"), *uart = machine_device("uart0"),
                        *tasks = machine_device("gpiote");
    uint32_t config = cnf(device, bit);
    struct pin_state state = {.use = PIN_INPUT, .latch = latch(device, bit),
                              .open_drain = (config & CNF_DRIVE) == CNF_S0D1,
                              .pull_up = (config & CNF_PULL) == CNF_PULL_UP};

    if (nrf_get(twi, NRF_ENABLE) == TWI_ON && nrf_get(twi, PSELSDA) == bit) {
        return of_bus(device, bit, "sda");
    }
    if (nrf_get(twi, NRF_ENABLE) == TWI_ON && nrf_get(twi, PSELSCL) == bit) {
        return of_bus(device, bit, "scl");
    }
    if ((nrf_get(tasks, CONFIG0) >> 8 & 31) == bit && tasks->model->drives(tasks, NULL, &state.latch)) {
        state.use = PIN_OUTPUT;
    }
    if (nrf_get(uart, NRF_ENABLE) == UART_ON && nrf_get(uart, PSELTXD) == bit) {
        /* The line is idle here; characters go straight to the log. */
        state.use = PIN_OUTPUT;
        state.latch = true;
    }
    if ((config & CNF_OUTPUT) != 0) {
        state.use = PIN_OUTPUT;
    }
    return state;
}

static void feed(struct device *device, unsigned bit, bool high)
{
    struct gpio *gpio = device->state;

    gpio->fed = high ? gpio->fed | 1u << bit : gpio->fed & ~(1u << bit);
}

/* All pins are inputs that nothing looks at. */
static void reset(struct device *device)
{
    for (unsigned bit = 0; bit < 32; bit++) {
        *nrf_at(device, PIN_CNF + 4 * bit) = CNF_NO_INPUT;
    }
}

static uint32_t levels(struct device *device)
{
    uint32_t levels = ((struct gpio *)device->state)->fed;

    for (unsigned bit = 0; bit < 32; bit++) {
        struct pin_state state = pin(device, bit);

        if (state.use == PIN_OUTPUT && !(state.open_drain && state.latch)) {
            levels = (levels & ~(1u << bit)) | (state.latch ? 1u << bit : 0);
        }
        if ((cnf(device, bit) & CNF_NO_INPUT) != 0) {
            levels &= ~(1u << bit);
        }
    }
    return levels;
}

static uint32_t read(struct device *device, uint32_t offset)
{
    if (offset == IN) {
        return levels(device);
    }
    return nrf_get(device, offset == OUTSET || offset == OUTCLR ? OUT : offset);
}

static void write(struct device *device, uint32_t offset, uint32_t value)
{
    if (offset == OUTSET) {
        *nrf_at(device, OUT) |= value;
    } else if (offset == OUTCLR) {
        *nrf_at(device, OUT) &= ~value;
    } else {
        *nrf_at(device, offset) = value;
    }
}

const struct model nrf_gpio_model = {
    .kind = "nrf_gpio", .state_bytes = sizeof(struct gpio), .reset = reset, .read = read,
    .write = write, .pin = pin, .feed = feed};

/* One channel of GPIOTE, as a task that sets, clears or toggles. */
struct gpiote {
    struct nrf nrf;
    bool high;
};

static void gpiote_write(struct device *device, uint32_t offset, uint32_t value)
{
    struct gpiote *gpiote = device->state;
    uint32_t config = nrf_get(device, CONFIG0);

    if (offset == TASKS_OUT0 && (config & 3) == MODE_TASK) {
        gpiote->high = (config >> 16 & 3) == TOGGLES ? !gpiote->high : (config >> 16 & 3) == 1;
    } else if (offset == CONFIG0) {
        gpiote->high = (value >> 20 & 1) != 0;
        *nrf_at(device, offset) = value;
    } else if (offset > TASKS_OUT0) {
        machine_complain("no more than one channel of GPIOTE is modelled", device->base + offset);
    }
}

static bool gpiote_drives(const struct device *device, const char *signal, bool *high)
{
    bool drives = (nrf_get(device, CONFIG0) & 3) == MODE_TASK;

    (void)signal;
    if (drives) {
        *high = ((const struct gpiote *)device->state)->high;
    }
    return drives;
}

const struct model nrf_gpiote_model = {
    .kind = "nrf_gpiote", .state_bytes = sizeof(struct gpiote), .read = nrf_read,
    .write = gpiote_write, .drives = gpiote_drives};
