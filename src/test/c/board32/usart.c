/*
 * A serial port, sending, with eight bits and no parity: with ISR and TDR, RM0091 (STM32F0), section 27;
 * with SR and DR, RM0008 (STM32F1), section 27, and CH32V, GD32VF103. What is sent is logged with
 * the length of a bit that BRR really gives.
 */
#include <string.h>

#include "line.h"
#include "models.h"

/* One is sent, one waits. */
#define DEPTH 2

/* With 16 samples a bit, BRR is 16 at least: RM0091, 27.5.4; RM0008, 27.3.4. */
#define LEAST_BRR 16

enum { TC = 1u << 6, TXE = 1u << 7, TCIE = 1u << 6, TXEIE = 1u << 7, TE = 1u << 3 };

struct usart {
    uint32_t cr1, cr2, cr3, brr;
    bool complete;
    struct line line;
};

/* Cycles of a bit: BRR, by 16 samples a bit. */
static double bit_cycles(const struct usart *usart)
{
    return usart->brr == 0 ? 1 : usart->brr;
}

static bool is_on(const struct device *device)
{
    const struct usart *usart = device->state;
    uint32_t enable = 1u << device_option(device, "enable", 0);

    return (usart->cr1 & enable) != 0 && (usart->cr1 & TE) != 0;
}

static uint32_t status(const struct usart *usart)
{
    return (usart->line.count < DEPTH ? TXE : 0) | (usart->complete ? TC : 0);
}

static void send(struct device *device, uint8_t byte)
{
    struct usart *usart = device->state;

    if (!is_on(device) || usart->line.count == DEPTH) {
        machine_complain("a character is written that cannot be sent", device->base);
        return;
    }
    if (usart->brr < LEAST_BRR) {
        machine_complain("a character at a rate that there cannot be", device->base);
    }
    usart->complete = false;
    line_send(&usart->line, byte, bit_cycles(usart));
}

static uint64_t due(const struct device *device)
{
    return line_due(&((const struct usart *)device->state)->line);
}

static void step(struct device *device)
{
    struct usart *usart = device->state;

    line_end(&usart->line, bit_cycles(usart));
    usart->complete = usart->line.count == 0;
}

static void reset(struct device *device)
{
    ((struct usart *)device->state)->complete = true;
}

static unsigned asks(const struct device *device)
{
    const struct usart *usart = device->state;

    return ((usart->cr1 & TXEIE) != 0 && (status(usart) & TXE) != 0) ||
           ((usart->cr1 & TCIE) != 0 && usart->complete);
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
    *high = true;
    return strcmp(signal, "tx") == 0 && is_on(device);
}

enum { CR1 = 0x00, CR2 = 0x04, CR3 = 0x08, BRR = 0x0C, ISR = 0x1C, ICR = 0x20, TDR = 0x28 };

static uint32_t isr_read(struct device *device, uint32_t offset)
{
    const struct usart *usart = device->state;

    switch (offset) {
    case CR1:
        return usart->cr1;
    case CR2:
        return usart->cr2;
    case CR3:
        return usart->cr3;
    case BRR:
        return usart->brr;
    case ISR:
        return status(usart) | (is_on(device) ? 1u << 21 : 0);
    default:
        return 0;
    }
}

static void isr_write(struct device *device, uint32_t offset, uint32_t value)
{
    struct usart *usart = device->state;

    switch (offset) {
    case CR1:
        usart->cr1 = value;
        break;
    case CR2:
        usart->cr2 = value;
        break;
    case CR3:
        usart->cr3 = value;
        break;
    case BRR:
        /* RM0091, 27.8.4. */
        if ((usart->cr1 & 1) != 0) {
            machine_complain("BRR is written while UE is set", device->base + offset);
        }
        usart->brr = value;
        break;
    case ICR:
        usart->complete = usart->complete && (value & TC) == 0;
        break;
    case TDR:
        send(device, (uint8_t)value);
        break;
    default:
        break;
    }
}

const struct model usart_isr_model = {
    .kind = "usart_isr", .state_bytes = sizeof(struct usart), .reset = reset, .read = isr_read,
    .write = isr_write, .due = due, .step = step, .stop = stop, .asks = asks, .drives = drives};

enum { SR = 0x00, DR = 0x04, OLD_BRR = 0x08, OLD_CR1 = 0x0C, OLD_CR2 = 0x10, OLD_CR3 = 0x14 };

static uint32_t sr_read(struct device *device, uint32_t offset)
{
    const struct usart *usart = device->state;

    switch (offset) {
    case SR:
        return status(usart);
    case OLD_BRR:
        return usart->brr;
    case OLD_CR1:
        return usart->cr1;
    case OLD_CR2:
        return usart->cr2;
    case OLD_CR3:
        return usart->cr3;
    default:
        return 0;
    }
}

static void sr_write(struct device *device, uint32_t offset, uint32_t value)
{
    struct usart *usart = device->state;

    switch (offset) {
    case SR:
        usart->complete = usart->complete && (value & TC) != 0;
        break;
    case DR:
        send(device, (uint8_t)value);
        break;
    case OLD_BRR:
        if (usart->line.count != 0) {
            machine_complain("BRR is written while a character is sent", device->base + offset);
        }
        usart->brr = value;
        break;
    case OLD_CR1:
        usart->cr1 = value;
        break;
    case OLD_CR2:
        usart->cr2 = value;
        break;
    case OLD_CR3:
        usart->cr3 = value;
        break;
    default:
        break;
    }
}

const struct model usart_sr_model = {
    .kind = "usart_sr", .state_bytes = sizeof(struct usart), .reset = reset, .read = sr_read,
    .write = sr_write, .due = due, .step = step, .stop = stop, .asks = asks, .drives = drives};
