#include "serial.h"

#include <inttypes.h>
#include <stdio.h>
#include <string.h>

#include <simavr/avr_uart.h>

#include "bus_checker.h"

/* A start bit, eight data bits and a stop bit. */
#define BITS 10

/* A character, and how long its bits were. */
static void say(uint64_t ns, unsigned character, uint64_t bit_ns)
{
    printf("serial %" PRIu64 " %u %" PRIu64 "\n", ns / 1000, character, bit_ns);
}

/* The clock cycles of a bit, by the data sheets' "Baud Rate Generation". */
static unsigned bit_cycles(avr_t *avr, const avr_uart_t *port)
{
    unsigned divider = avr_regbit_get(avr, port->ubrrl) | (unsigned)avr_regbit_get(avr, port->ubrrh) << 8;

    return (divider + 1) * (avr_regbit_get(avr, port->u2x) ? 8 : 16);
}

static void heard(struct avr_irq_t *irq, uint32_t value, void *param)
{
    avr_uart_t *port = param;
    avr_t *avr = port->io.avr;
    unsigned cycles = bit_cycles(avr, port);

    (void)irq;
    /* The simulator counts a parity bit that is not sent, and misses a later change of speed. */
    port->cycles_per_byte = cycles * BITS;
    say(avr->cycle * 1000000000u / avr->frequency, value & 0xFF,
        cycles * UINT64_C(1000000000) / avr->frequency);
}

void serial_begin_hardware(avr_t *avr)
{
    for (avr_io_t *io = avr->io_port; io != NULL; io = io->next) {
        if (strcmp(io->kind, "uart") == 0) {
            avr_uart_t *port = (avr_uart_t *)io;
            uint32_t flags = 0;

            /* Neither prints what it gets nor sleeps while it is asked. */
            avr_ioctl(avr, AVR_IOCTL_UART_SET_FLAGS(port->name), &flags);
            avr_irq_register_notify(
                avr_io_getirq(avr, AVR_IOCTL_UART_GETIRQ(port->name), UART_IRQ_OUTPUT), heard, port);
        }
    }
}

static struct pin line;
static uint64_t bit;
static bool receiving, level = true;
static uint64_t began, edge;
static unsigned edge_bit, taken, shift;

void serial_begin_pin(struct pin pin, uint64_t bit_ns)
{
    line = pin;
    bit = bit_ns;
}

static void take_bit(uint64_t ns)
{
    shift |= (level ? 1u : 0) << taken;
    if (++taken < BITS) {
        return;
    }
    receiving = false;
    if ((shift & 1) != 0 || (shift >> (BITS - 1)) == 0) {
        checker_violation(ns, "serial character without start or stop bit");
    }
    /* The last rise tells how long a bit is; there is one at the stop bit or before it. */
    say(began, shift >> 1 & 0xFF, (edge - began) / edge_bit);
}

void serial_step(const avr_t *avr, uint64_t ns)
{
    bool high;

    if (line.port == NULL || !pin_is_output(avr, line)) {
        return;
    }
    high = pin_latch(avr, line);
    while (receiving && ns >= began + bit / 2 + taken * bit) {
        take_bit(ns);
    }
    if (high != level) {
        if (receiving) {
            edge = ns;
            edge_bit = (unsigned)((ns - began + bit / 2) / bit);
        } else if (!high) {
            receiving = true;
            began = ns;
            taken = shift = 0;
        }
    }
    level = high;
}
