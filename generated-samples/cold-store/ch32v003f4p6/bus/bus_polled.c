/* SPDX-License-Identifier: 0BSD */
/*
 * The two-wire bus by the part's own controller, waited for.
 *
 * cold-store guard, for CH32V003F4P6. Written by ullage from a loop file: to change
 * a number, change it there and emit again.
 */
#include "bus.h"

#include "../port/port.h"
#include "../port/registers.h"

bool bus_fault;

/* The address of the sensor to be read has been acknowledged, and holds the clock. */
static bool bus_held;

/* Half a bit, less what the instructions around it take. */
__attribute__((noinline)) static void half_bit(void)
{
    uint32_t turns = fixed_u16(BUS_HALF_BIT);

    __asm__ volatile("1: addi %0, %0, -1\n\tbnez %0, 1b" : "+r"(turns));
}

/*
 * A sensor that was cut off in the middle of a byte holds the data line: clock it free, then STOP.
 * The pins are the program's afterwards.
 */
static void recover(void)
{
    uint8_t clocks = fixed_u8(9);

    pin_release(fixed_u8(PIN_SDA));
    pin_release(fixed_u8(PIN_SCL));
    if (pin_is_high(fixed_u8(PIN_SDA))) {
        return;
    }
    do {
        pin_low(fixed_u8(PIN_SCL));
        half_bit();
        pin_release(fixed_u8(PIN_SCL));
        half_bit();
    } while (--clocks != 0);
    pin_low(fixed_u8(PIN_SCL));
    half_bit();
    pin_low(fixed_u8(PIN_SDA));
    half_bit();
    pin_release(fixed_u8(PIN_SCL));
    half_bit();
    pin_release(fixed_u8(PIN_SDA));
    half_bit();
}

/* A controller that thinks the bus busy forgets it by a reset: RM0008 26.6.1, SWRST. */
static void prepare(void)
{
    CLOCKS_APB1 |= CLOCK_BUS;
    recover();
    pin_function_open(fixed_u8(PIN_SDA), 0);
    pin_function_open(fixed_u8(PIN_SCL), 0);
    BUS_CONTROL1 = BUS_RESET;
    BUS_CONTROL1 = 0;
    BUS_CONTROL2 = fixed_u8(BUS_FREQUENCY);
    BUS_CLOCK = fixed_u16(BUS_RATE);
    BUS_CONTROL1 = BUS_ON;
}

/* Waits for a step of the controller: a bit takes long, but not for ever. */
static void wait_for(uint32_t step)
{
    uint32_t patience = fixed_u32(BUS_PATIENCE);
    uint32_t status;

    do {
        status = BUS_STATUS1;
        if ((status & BUS_TROUBLE) != 0 || --patience == 0) {
            bus_fault = true;
            return;
        }
    } while ((status & step) == 0);
}

/* Reading the second status register after the first lets the clock go: RM0008 26.6.6, ADDR. */
static void let_go(void)
{
    (void)BUS_STATUS2;
}

void bus_put(uint8_t byte)
{
    if (!bus_fault) {
        BUS_DATA = byte;
        wait_for(BUS_SENT);
    }
}

void bus_start(uint8_t address)
{
    if (bus_fault) {
        return;
    }
    BUS_CONTROL1 = BUS_ON | BUS_START;
    wait_for(BUS_STARTED);
    if (bus_fault) {
        return;
    }
    BUS_DATA = address;
    wait_for(BUS_ADDRESSED);
    bus_held = (address & 1u) != 0;
    if (!bus_held) {
        let_go();
    }
}

/* The answer to a byte is given while it comes in, so it must be known before. */
uint8_t bus_get(uint8_t acknowledge)
{
    bool last = acknowledge == BUS_LAST;

    if (bus_fault) {
        return 0;
    }
    BUS_CONTROL1 = last ? BUS_ON : BUS_ON | BUS_ACKNOWLEDGE;
    if (bus_held) {
        bus_held = false;
        let_go();
    }
    /* If this byte is here already the controller is at one more, and ends after that: bus_stop. */
    if (last && (BUS_STATUS1 & BUS_ARRIVED) == 0) {
        BUS_CONTROL1 = BUS_ON | BUS_STOP;
    }
    wait_for(BUS_ARRIVED);
    return (uint8_t)BUS_DATA;
}

void bus_stop(void)
{
    uint32_t patience = fixed_u32(BUS_PATIENCE);

    /* The last byte that came in has brought its STOP along. */
    if ((BUS_CONTROL1 & BUS_STOP) == 0 && (BUS_STATUS2 & BUS_MASTER) != 0) {
        BUS_CONTROL1 = BUS_ON | BUS_STOP;
    }
    while ((BUS_STATUS2 & BUS_MASTER) != 0) {
        if (--patience == 0) {
            bus_fault = true;
            break;
        }
    }
    if (bus_fault) {
        /* Lets go of the pins, so that the next transaction can free the bus. */
        BUS_CONTROL1 = 0;
    }
    /* The bus is free for as long as UM10204 wants it to be, tBUF, before the next START. */
    half_bit();
}

void bus_begin(void)
{
    bus_fault = false;
    prepare();
}
