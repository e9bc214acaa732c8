/*
 * A USART of the LPC800 series that sends eight bits: UM10601 15.6, UM10800 13.6; LPC84x and LPC80x alike. What is
 * sent is logged with the length of a bit that the dividers really give.
 */
#include "line.h"
#include "lpc.h"

enum { CFG = 0x00, STAT = 0x08, TXDAT = 0x1C, BRG = 0x20 };
enum { ENABLE = 1, EIGHT_BITS = 4, TXRDY = 4, TXIDLE = 8 };

/* One is sent, one waits. */
#define DEPTH 2

struct usart {
    uint32_t divider;
    bool on;
    struct line line;
};

/* "Baud rate generator": sixteen samples a bit, of the peripheral's clock divided by one more. */
static double bit_cycles(const struct device *device)
{
    const struct usart *usart = device->state;

    return lpc_cycles(device, LPC_SERIAL, 16.0 * (usart->divider + 1));
}

static void send(struct device *device, uint8_t byte)
{
    struct usart *usart = device->state;

    if (usart->on && usart->line.count < DEPTH) {
        line_send(&usart->line, byte, bit_cycles(device));
    } else {
        machine_complain("a character is written that cannot be sent", device->base);
    }
}

/* Both are to be set while the USART is off, or as it is switched on. */
static void write(struct device *device, uint32_t offset, uint32_t value)
{
    struct usart *usart = device->state;

    if (offset == TXDAT) {
        send(device, (uint8_t)value);
    } else if (offset == BRG && !usart->on) {
        usart->divider = value & 0xFFFF;
    } else if (offset == CFG && (value & ~(uint32_t)ENABLE) == EIGHT_BITS && !usart->on) {
        usart->on = (value & ENABLE) != 0;
    } else {
        machine_complain("a write that the sender does not know, or not now", device->base + offset);
    }
}

static uint32_t read(struct device *device, uint32_t offset)
{
    const struct usart *usart = device->state;

    return offset == STAT ? (usart->line.count < DEPTH ? TXRDY : 0) | (usart->line.count == 0 ? TXIDLE : 0) : 0;
}

static uint64_t due(const struct device *device)
{
    return line_due(&((const struct usart *)device->state)->line);
}

static void step(struct device *device)
{
    line_end(&((struct usart *)device->state)->line, bit_cycles(device));
}

static void stop(struct device *device)
{
    if (((const struct usart *)device->state)->line.count != 0) {
        machine_complain("the clock stops within a character", device->base);
    }
}

/* The line is idle here, which is high; characters go straight to the log. */
static bool drives(const struct device *device, const char *signal, bool *high)
{
    (void)signal;
    *high = true;
    return ((const struct usart *)device->state)->on;
}

const struct model lpc_usart_model = {
    .kind = "lpc_usart", .state_bytes = sizeof(struct usart), .read = read, .write = write, .due = due,
    .step = step, .stop = stop, .drives = drives};
