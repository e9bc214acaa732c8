/*
 * A SERCOM that sends characters: data sheet of SAM D21 (DS40001882), "SERCOM USART"; the same in D10
 * and D11, and with registers at other places in D20 (DS60001504), which `old=1` stands for. What
 * is sent is logged with the length of a bit that BAUD really gives.
 */
#include <string.h>

#include "line.h"
#include "models.h"
#include "samd.h"

/* One is sent, one waits. */
#define DEPTH 2

enum { CTRLA = 0x00, CTRLB = 0x04 };
enum { BAUD, INTFLAG, DATA, PLACES };
static const uint8_t places[2][PLACES] = {{0x0C, 0x18, 0x28}, {0x0A, 0x0E, 0x18}};

enum { ENABLE = 1u << 1, INTERNAL_CLOCK = 1u << 2, TXPO_PLACE = 16, TXEN = 1u << 16, DRE = 1, TXC = 2 };
#define LOWEST_FIRST (1u << 30)

struct usart {
    uint32_t control, transmit, baud;
    bool complete;
    struct line line;
};

/* Arithmetic baud rate: the generic clock / 16, times (1 - BAUD / 65536). */
static double bit_cycles(const struct device *device)
{
    const struct usart *usart = device->state;

    return 16 * machine_hz() / samd_clock(device) / (1 - usart->baud / 65536.0);
}

static bool is_on(const struct usart *usart)
{
    return (usart->control & ENABLE) != 0 && (usart->transmit & TXEN) != 0;
}

static void send(struct device *device, uint8_t byte)
{
    struct usart *usart = device->state;

    if (is_on(usart) && usart->line.count < DEPTH) {
        usart->complete = false;
        line_send(&usart->line, byte, bit_cycles(device));
    } else {
        machine_complain("a character is written that cannot be sent", device->base);
    }
}

static void write(struct device *device, uint32_t offset, uint32_t value, unsigned bytes)
{
    struct usart *usart = device->state;
    const uint8_t *at = places[device_option(device, "old", 0)];

    if (offset == CTRLA && bytes == 4) {
        if ((value & ~(3u << TXPO_PLACE)) != (LOWEST_FIRST | INTERNAL_CLOCK | ENABLE)) {
            machine_complain("a mode of the sender that is not modelled", device->base);
        }
        usart->control = value;
    } else if (offset == CTRLB && bytes == 4) {
        usart->transmit = value;
    } else if (offset == at[BAUD] && bytes == 2 && (usart->control & ENABLE) == 0) {
        usart->baud = value;
    } else if (offset == at[DATA] && bytes == 2) {
        send(device, (uint8_t)value);
    } else {
        machine_complain("a write that the sender does not know", device->base + offset);
    }
}

static uint32_t read(struct device *device, uint32_t offset, unsigned bytes)
{
    const struct usart *usart = device->state;
    const uint8_t *at = places[device_option(device, "old", 0)];

    if (offset != at[INTFLAG] || bytes != 1 || !is_on(usart)) {
        return 0;
    }
    return (usart->line.count < DEPTH ? DRE : 0) | (usart->complete ? TXC : 0);
}

static uint64_t due(const struct device *device)
{
    return line_due(&((const struct usart *)device->state)->line);
}

static void step(struct device *device)
{
    struct usart *usart = device->state;

    line_end(&usart->line, bit_cycles(device));
    usart->complete = usart->line.count == 0;
}

static void stop(struct device *device)
{
    if (((const struct usart *)device->state)->line.count != 0) {
        machine_complain("the clock stops within a character", device->base);
    }
}

/* The line is idle here, which is high; a signal is the pad that TXPO chooses: pad0 or pad2. */
static bool drives(const struct device *device, const char *signal, bool *high)
{
    const struct usart *usart = device->state;
    bool second = (usart->control >> TXPO_PLACE & 3) == 1;

    *high = true;
    return is_on(usart) && strcmp(signal, second ? "pad2" : "pad0") == 0;
}

const struct model sercom_usart_model = {
    .kind = "sercom_usart", .state_bytes = sizeof(struct usart), .read_bytes = read,
    .write_bytes = write, .due = due, .step = step, .stop = stop, .drives = drives};
