/* SPDX-License-Identifier: 0BSD */
/*
 * The two-wire bus by the part's own controller, waited for.
 *
 * compost-heap watering, for ATmega8A. Written by ullage from a loop file: to change
 * a number, change it there and emit again.
 */
#include "bus.h"

#include <util/delay_basic.h>

#include "../port/port.h"

/* Status codes of the data sheet's tables for the master transmitter and receiver modes. */
#define BUS_STATUS_MASK 0xF8
#define BUS_STARTED 0x08
#define BUS_RESTARTED 0x10
#define BUS_ADDRESS_SENT 0x18
#define BUS_DATA_SENT 0x28
#define BUS_ADDRESS_SENT_TO_READ 0x40

bool bus_fault;

/* Lets go of the clock, or pulls it down, for half a bit. */
static void clock_line(bool high)
{
    if (high) {
        DDRC &= (uint8_t)~PORT_BIT(5);
    } else {
        DDRC |= PORT_BIT(5);
    }
    _delay_loop_1(fixed_u8(BUS_HALF_BIT));
}

/* A sensor that was cut off in the middle of a byte holds the data line: clock it free, then STOP. */
static void recover(void)
{
    uint8_t clocks = fixed_u8(9);

    if ((PINC & PORT_BIT(4)) != 0) {
        return;
    }
    TWCR = 0;
    do {
        clock_line(false);
        clock_line(true);
    } while (--clocks != 0);
    clock_line(false);
    DDRC |= PORT_BIT(4);
    clock_line(true);
    DDRC &= (uint8_t)~PORT_BIT(4);
}

/* Sets the controller to its next step and waits for it: a bit takes long, but not for ever. */
__attribute__((noinline)) static uint8_t step(uint8_t control)
{
    uint16_t patience = fixed_u16(BUS_PATIENCE);

    if (bus_fault) {
        return 0;
    }
    TWCR = (uint8_t)(control | (1 << TWINT) | (1 << TWEN));
    while ((TWCR & (1 << TWINT)) == 0) {
        if (--patience == 0) {
            bus_fault = true;
            break;
        }
    }
    return TWSR & BUS_STATUS_MASK;
}

void bus_put(uint8_t byte)
{
    uint8_t status;

    TWDR = byte;
    status = step(0);
    if (status != BUS_ADDRESS_SENT && status != BUS_DATA_SENT &&
        status != BUS_ADDRESS_SENT_TO_READ) {
        bus_fault = true;
    }
}

void bus_start(uint8_t address)
{
    uint8_t status = step(1 << TWSTA);

    if (status != BUS_STARTED && status != BUS_RESTARTED) {
        bus_fault = true;
    }
    bus_put(address);
}

uint8_t bus_get(uint8_t acknowledge)
{
    (void)step(acknowledge == BUS_MORE ? (1 << TWEA) : 0);
    return TWDR;
}

void bus_stop(void)
{
    uint16_t patience = fixed_u16(BUS_PATIENCE);

    TWCR = (1 << TWINT) | (1 << TWSTO) | (1 << TWEN);
    while ((TWCR & (1 << TWSTO)) != 0 && --patience != 0) {
    }
    if (patience == 0) {
        bus_fault = true;
        /* Lets go of the pins, so that the next transaction can free the bus. */
        TWCR = 0;
    }
}

void bus_begin(void)
{
    bus_fault = false;
    recover();
    TWBR = fixed_u8(BUS_BIT_RATE);
    TWCR = 1 << TWEN;
}
