/* SPDX-License-Identifier: 0BSD */
/*
 * The two-wire bus by the part's own controller, waited for.
 *
 * cold-store guard, for STM32F030F4. Written by ullage from a loop file: to change
 * a number, change it there and emit again.
 */
#include "bus.h"

#include "../port/port.h"
#include "../port/registers.h"

bool bus_fault;

/*
 * The controller wants to be told of each byte whether it is the last one. So
 * START waits for the first byte, and a byte that is to be sent for the next.
 */
static uint32_t bus_control;
static uint8_t bus_byte;
static bool bus_held;

/* Half a bit, less what the instructions around it take. */
__attribute__((noinline)) static void half_bit(void)
{
    uint32_t turns = fixed_u16(BUS_HALF_BIT);

    __asm__ volatile(".syntax unified\n1: subs %0, #1\n\tbne 1b" : "+l"(turns) : : "cc");
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

/* A bit takes long, and a sensor may hold the clock, but not for ever. */
__attribute__((noinline)) static void wait_for(uint32_t flags)
{
    uint32_t patience = fixed_u32(BUS_PATIENCE);
    uint32_t seen;

    do {
        seen = I2C_ISR;
        if ((seen & (I2C_ISR_NACKF | I2C_ISR_BERR | I2C_ISR_ARLO)) != 0 || --patience == 0) {
            bus_fault = true;
            return;
        }
    } while ((seen & flags) == 0);
}

/* One byte, there or back; `more` is I2C_CR2_RELOAD, or 0 for the last one. */
__attribute__((noinline)) static uint8_t move(uint8_t byte, uint32_t more)
{
    if (bus_fault) {
        return 0;
    }
    I2C_CR2 = bus_control | 1u << I2C_CR2_NBYTES_PLACE | more;
    bus_control &= ~I2C_CR2_START;
    wait_for(I2C_ISR_TXIS | I2C_ISR_RXNE);
    if ((bus_control & 1u << I2C_CR2_RD_WRN_PLACE) != 0) {
        byte = (uint8_t)I2C_RXDR;
    } else if (!bus_fault) {
        I2C_TXDR = byte;
    }
    wait_for(I2C_ISR_TC | I2C_ISR_TCR);
    return byte;
}

static void send_held(uint32_t more)
{
    if (bus_held) {
        bus_held = false;
        (void)move(bus_byte, more);
    }
}

void bus_put(uint8_t byte)
{
    send_held(I2C_CR2_RELOAD);
    bus_byte = byte;
    bus_held = true;
}

void bus_start(uint8_t address)
{
    send_held(0);
    bus_control = (address & 0xFEu) | (uint32_t)(address & 1u) << I2C_CR2_RD_WRN_PLACE | I2C_CR2_START;
}

uint8_t bus_get(uint8_t acknowledge)
{
    return move(0, acknowledge == BUS_MORE ? I2C_CR2_RELOAD : 0);
}

void bus_stop(void)
{
    uint32_t seen;

    send_held(0);
    if ((I2C_ISR & I2C_ISR_TCR) != 0) {
        /* A wrong check byte within a frame, and the sensor sends on: refuse one more. */
        I2C_CR2 = bus_control | 1u << I2C_CR2_NBYTES_PLACE;
        wait_for(I2C_ISR_TC);
    }
    seen = I2C_ISR;
    if ((seen & I2C_ISR_TC) != 0) {
        I2C_CR2 = I2C_CR2_STOP;
    }
    /* After a missing acknowledge the controller sends STOP by itself. */
    if ((seen & (I2C_ISR_TC | I2C_ISR_NACKF)) != 0) {
        I2C_ICR = I2C_ISR_NACKF;
        wait_for(I2C_ISR_STOPF);
        I2C_ICR = I2C_ISR_STOPF;
    }
    if (bus_fault) {
        /* Lets go of the pins, so that the next transaction can free the bus. */
        I2C_CR1 = 0;
    }
}

void bus_begin(void)
{
    bus_fault = false;
    bus_held = false;
    RCC_I2C |= RCC_I2C_ON;
    I2C_CR1 = 0;
    recover();
    pin_function_open(fixed_u8(PIN_SDA), fixed_u8(BUS_AF));
    pin_function_open(fixed_u8(PIN_SCL), fixed_u8(BUS_AF));
    I2C_TIMINGR = fixed_u32(BUS_TIMING);
    I2C_CR1 = I2C_CR1_PE;
}
