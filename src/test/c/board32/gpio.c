/*
 * Ports of pins: with MODER, RM0091 (STM32F0), 8.4; with CRL and CRH, RM0008 (STM32F1), 9.2, where
 * CH32V and GD32VF103 call them CFGLR and CFGHR, or CTL0 and CTL1.
 */
#include "models.h"

struct port {
    uint32_t mode, high_mode, type, speed, pull, latch, functions[2];
    /* What the world puts on the pins. */
    uint32_t fed;
};

static void set_and_clear(struct port *port, uint32_t value)
{
    port->latch = ((port->latch & ~(value >> 16)) | value) & 0xFFFF;
}

static void feed(struct device *device, unsigned bit, bool high)
{
    struct port *port = device->state;

    port->fed = high ? port->fed | 1u << bit : port->fed & ~(1u << bit);
}

/* A pin that is driven hard shows that; else what is outside, low where nothing is. */
static uint32_t levels(struct device *device)
{
    struct port *port = device->state;
    uint32_t levels = port->fed;

    for (unsigned bit = 0; bit < 16; bit++) {
        struct pin_state pin = device->model->pin(device, bit);

        if (pin.use == PIN_OUTPUT && !(pin.open_drain && pin.latch)) {
            levels = (levels & ~(1u << bit)) | (pin.latch ? 1u << bit : 0);
        }
        if (pin.use == PIN_ANALOG) {
            levels &= ~(1u << bit);
        }
    }
    return levels;
}

enum { MODER = 0x00, OTYPER = 0x04, OSPEEDR = 0x08, PUPDR = 0x0C, IDR = 0x10, ODR = 0x14, BSRR = 0x18,
       AFRL = 0x20, AFRH = 0x24, BRR = 0x28 };

static void moder_reset(struct device *device)
{
    ((struct port *)device->state)->mode = device_option(device, "reset", 0);
}

static struct pin_state moder_pin(const struct device *device, unsigned bit)
{
    static const enum pin_use uses[] = {PIN_INPUT, PIN_OUTPUT, PIN_FUNCTION, PIN_ANALOG};
    const struct port *port = device->state;

    return (struct pin_state){.use = uses[port->mode >> 2 * bit & 3],
                              .open_drain = (port->type >> bit & 1) != 0,
                              .latch = (port->latch >> bit & 1) != 0,
                              .pull_up = (port->pull >> 2 * bit & 3) == 1,
                              .function = port->functions[bit / 8] >> 4 * (bit % 8) & 15};
}

static uint32_t moder_read(struct device *device, uint32_t offset)
{
    const struct port *port = device->state;

    switch (offset) {
    case MODER:
        return port->mode;
    case OTYPER:
        return port->type;
    case OSPEEDR:
        return port->speed;
    case PUPDR:
        return port->pull;
    case IDR:
        return levels(device);
    case ODR:
        return port->latch;
    case AFRL:
    case AFRH:
        return port->functions[(offset - AFRL) / 4];
    default:
        return 0;
    }
}

static void moder_write(struct device *device, uint32_t offset, uint32_t value)
{
    struct port *port = device->state;

    switch (offset) {
    case MODER:
        port->mode = value;
        break;
    case OTYPER:
        port->type = value & 0xFFFF;
        break;
    case OSPEEDR:
        port->speed = value;
        break;
    case PUPDR:
        port->pull = value;
        break;
    case ODR:
        port->latch = value & 0xFFFF;
        break;
    case BSRR:
        set_and_clear(port, value);
        break;
    case BRR:
        port->latch &= ~value;
        break;
    case AFRL:
    case AFRH:
        port->functions[(offset - AFRL) / 4] = value;
        break;
    default:
        break;
    }
}

const struct model gpio_moder_model = {
    .kind = "gpio_moder", .state_bytes = sizeof(struct port), .reset = moder_reset, .read = moder_read,
    .write = moder_write, .pin = moder_pin, .feed = feed};

enum { CRL = 0x00, CRH = 0x04, CRL_IDR = 0x08, CRL_ODR = 0x0C, CRL_BSRR = 0x10, CRL_BRR = 0x14 };

static void crl_reset(struct device *device)
{
    struct port *port = device->state;

    port->mode = port->high_mode = 0x44444444;
}

/* MODE, two bits, and CNF, two bits above: RM0008, table 20. */
static struct pin_state crl_pin(const struct device *device, unsigned bit)
{
    const struct port *port = device->state;
    uint32_t nibble = (bit < 8 ? port->mode : port->high_mode) >> 4 * (bit % 8) & 15;
    bool output = (nibble & 3) != 0, latch = (port->latch >> bit & 1) != 0;

    return (struct pin_state){
        .use = output ? ((nibble & 8) != 0 ? PIN_FUNCTION : PIN_OUTPUT)
                      : (nibble == 0 ? PIN_ANALOG : PIN_INPUT),
        .open_drain = output && (nibble & 4) != 0,
        .latch = latch,
        .pull_up = nibble == 8 && latch};
}

static uint32_t crl_read(struct device *device, uint32_t offset)
{
    const struct port *port = device->state;

    switch (offset) {
    case CRL:
        return port->mode;
    case CRH:
        return port->high_mode;
    case CRL_IDR:
        return levels(device);
    case CRL_ODR:
        return port->latch;
    default:
        return 0;
    }
}

static void crl_write(struct device *device, uint32_t offset, uint32_t value)
{
    struct port *port = device->state;

    switch (offset) {
    case CRL:
        port->mode = value;
        break;
    case CRH:
        port->high_mode = value;
        break;
    case CRL_ODR:
        port->latch = value & 0xFFFF;
        break;
    case CRL_BSRR:
        set_and_clear(port, value);
        break;
    case CRL_BRR:
        port->latch &= ~value;
        break;
    default:
        break;
    }
}

const struct model gpio_crl_model = {
    .kind = "gpio_crl", .state_bytes = sizeof(struct port), .reset = crl_reset, .read = crl_read,
    .write = crl_write, .pin = crl_pin, .feed = feed};
