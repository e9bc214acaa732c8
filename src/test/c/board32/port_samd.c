/* A group of 32 pins of SAM D10, D11, D20 and D21: data sheet of SAM D21 (DS40001882), "PORT". */
#include "models.h"

enum { DIR = 0x00, DIRCLR = 0x04, DIRSET = 0x08, OUT = 0x10, OUTCLR = 0x14, OUTSET = 0x18,
       OUTTGL = 0x1C, IN = 0x20, PMUX = 0x30, PINCFG = 0x40, END = 0x60 };
enum { PMUXEN = 1, INEN = 2, PULLEN = 4, FUNCTION_B = 1 };

struct port {
    uint32_t dir, out, fed;
    uint8_t functions[16], config[32];
};

static unsigned function_of(const struct port *port, unsigned bit)
{
    return port->functions[bit / 2] >> 4 * (bit % 2) & 15;
}

static struct pin_state pin(const struct device *device, unsigned bit)
{
    const struct port *port = device->state;
    bool function = (port->config[bit] & PMUXEN) != 0, drives = (port->dir >> bit & 1) != 0;
    bool high = (port->out >> bit & 1) != 0;
    enum pin_use use = drives ? PIN_OUTPUT : PIN_INPUT;

    if (function) {
        use = function_of(port, bit) == FUNCTION_B ? PIN_ANALOG : PIN_FUNCTION;
    }
    return (struct pin_state){.use = use, .latch = high, .function = function_of(port, bit),
                              .pull_up = high && !drives && (port->config[bit] & PULLEN) != 0};
}

/* A pin is seen where its input is enabled, as it is outside, or as it is driven. */
static uint32_t levels(const struct device *device)
{
    const struct port *port = device->state;
    uint32_t levels = 0;

    for (unsigned bit = 0; bit < 32; bit++) {
        struct pin_state state = pin(device, bit);
        bool high = state.use == PIN_OUTPUT ? state.latch : (port->fed >> bit & 1) != 0;

        if ((port->config[bit] & INEN) != 0 && high) {
            levels |= 1u << bit;
        }
    }
    return levels;
}

static uint32_t read(struct device *device, uint32_t offset, unsigned bytes)
{
    const struct port *port = device->state;

    if (offset >= PINCFG && offset < END && bytes == 1) {
        return port->config[offset - PINCFG];
    }
    if (offset >= PMUX && offset < PINCFG && bytes == 1) {
        return port->functions[offset - PMUX];
    }
    return offset == IN ? levels(device) : offset < OUT ? port->dir : port->out;
}

static void write(struct device *device, uint32_t offset, uint32_t value, unsigned bytes)
{
    struct port *port = device->state;

    if (offset >= PINCFG && offset < END && bytes == 1) {
        port->config[offset - PINCFG] = (uint8_t)value;
        return;
    }
    if (offset >= PMUX && offset < PINCFG && bytes == 1) {
        port->functions[offset - PMUX] = (uint8_t)value;
        return;
    }
    switch (offset) {
    case DIR:
        port->dir = value;
        break;
    case DIRCLR:
        port->dir &= ~value;
        break;
    case DIRSET:
        port->dir |= value;
        break;
    case OUT:
        port->out = value;
        break;
    case OUTCLR:
        port->out &= ~value;
        break;
    case OUTSET:
        port->out |= value;
        break;
    case OUTTGL:
        port->out ^= value;
        break;
    default:
        machine_complain("a register of PORT that is not modelled", device->base + offset);
        break;
    }
}

static void feed(struct device *device, unsigned bit, bool high)
{
    struct port *port = device->state;

    port->fed = high ? port->fed | 1u << bit : port->fed & ~(1u << bit);
}

const struct model port_samd_model = {
    .kind = "port_samd", .state_bytes = sizeof(struct port), .read_bytes = read, .write_bytes = write,
    .pin = pin, .feed = feed};
