/*
 * GPIO of the LPC800 series: UM10601 7.6, UM10800 9.5; LPC84x, which has a second port, and LPC80x alike. Who has a pin
 * is asked of the switch matrix.
 */
#include "lpc.h"

#define PINS 64
#define GPIO1_ON (1u << 20)

enum { OPEN_DRAIN = 0x400, PULL = 0x18, PULL_UP = 0x10 };
enum { DIR = 0x2000, PIN = 0x2100, SET = 0x2200, CLR = 0x2280, NOT = 0x2300 };

struct gpio {
    uint32_t latch[2], out[2], fed[2];
};

static struct pin_state state_of(const struct gpio *gpio, unsigned pin)
{
    uint32_t config = lpc_config(pin);
    const struct lpc_lead *lead = lpc_led(pin);
    struct pin_state state = {.use = (gpio->out[pin / 32] >> pin % 32 & 1) != 0 ? PIN_OUTPUT : PIN_INPUT,
                              .open_drain = (config & OPEN_DRAIN) != 0 || lpc_is_pair((int)pin),
                              .latch = (gpio->latch[pin / 32] >> pin % 32 & 1) != 0,
                              .pull_up = (config & PULL) == PULL_UP};

    if (lpc_is_analog(pin)) {
        state.use = PIN_ANALOG;
    } else if (lpc_is_held(pin)) {
        state.use = PIN_INPUT;
    } else if (lead != NULL) {
        state.use = lead->from->model->drives(lead->from, lead->signal, &state.latch) ? PIN_OUTPUT : PIN_INPUT;
    }
    return state;
}

static bool level(const struct gpio *gpio, unsigned pin)
{
    struct pin_state state = state_of(gpio, pin);
    bool outside = (gpio->fed[pin / 32] >> pin % 32 & 1) != 0;

    return state.use == PIN_OUTPUT ? state.latch && (outside || !state.open_drain)
                                   : outside && state.use != PIN_ANALOG;
}

static uint32_t levels(const struct gpio *gpio, unsigned port)
{
    uint32_t word = 0;

    for (unsigned n = 0; n < lpc_places(); n++) {
        int pin = lpc_pin_at(n);

        if (pin >= 0 && (unsigned)pin / 32 == port && level(gpio, (unsigned)pin)) {
            word |= 1u << pin % 32;
        }
    }
    return word;
}

static void check_port(const struct device *device, unsigned port)
{
    struct device *rcc = machine_device("rcc");

    if (port != 0 && (machine_device("1") == NULL || (rcc->model->read(rcc, 0x80) & GPIO1_ON) == 0)) {
        machine_complain("the second port is not there, or has no clock", device->base);
    }
}

static uint32_t gpio_read(struct device *device, uint32_t offset, unsigned bytes)
{
    const struct gpio *gpio = device->state;
    unsigned port = offset / 4 & 1;

    if (offset < PINS && bytes == 1) {
        check_port(device, offset / 32);
        return level(gpio, offset);
    }
    check_port(device, port);
    switch (offset & ~4u) {
    case DIR:
        return gpio->out[port];
    case PIN:
        return levels(gpio, port);
    case SET:
        return gpio->latch[port];
    default:
        machine_complain("a register of GPIO that has no model is read", device->base + offset);
        return 0;
    }
}

static void gpio_write(struct device *device, uint32_t offset, uint32_t value, unsigned bytes)
{
    struct gpio *gpio = device->state;
    unsigned port = offset < PINS ? offset / 32 : offset / 4 & 1;
    uint32_t bit = 1u << offset % 32;

    check_port(device, port);
    if (offset < PINS && bytes == 1) {
        gpio->latch[port] = value != 0 ? gpio->latch[port] | bit : gpio->latch[port] & ~bit;
        return;
    }
    switch (bytes == 4 ? offset & ~4u : UINT32_MAX) {
    case DIR:
        gpio->out[port] = value;
        break;
    case PIN:
        gpio->latch[port] = value;
        break;
    case SET:
        gpio->latch[port] |= value;
        break;
    case CLR:
        gpio->latch[port] &= ~value;
        break;
    case NOT:
        gpio->latch[port] ^= value;
        break;
    default:
        machine_complain("a write to GPIO that has no model", device->base + offset);
    }
}

static void feed(struct gpio *gpio, unsigned pin, bool high)
{
    uint32_t bit = 1u << pin % 32;

    gpio->fed[pin / 32] = high ? gpio->fed[pin / 32] | bit : gpio->fed[pin / 32] & ~bit;
}

static struct pin_state first_pin(const struct device *device, unsigned bit)
{
    return state_of(device->state, bit);
}

static void first_feed(struct device *device, unsigned bit, bool high)
{
    feed(device->state, bit, high);
}

const struct model lpc_gpio_model = {
    .kind = "lpc_gpio", .state_bytes = sizeof(struct gpio), .read_bytes = gpio_read,
    .write_bytes = gpio_write, .pin = first_pin, .feed = first_feed};

/* The second port has its registers among those of the first, and none of its own. */
static struct pin_state second_pin(const struct device *device, unsigned bit)
{
    (void)device;
    return state_of(machine_device("0")->state, 32 + bit);
}

static void second_feed(struct device *device, unsigned bit, bool high)
{
    (void)device;
    feed(machine_device("0")->state, 32 + bit, high);
}

const struct model lpc_gpio1_model = {.kind = "lpc_gpio1", .pin = second_pin, .feed = second_feed};
