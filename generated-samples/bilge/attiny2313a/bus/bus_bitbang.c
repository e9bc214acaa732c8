/* SPDX-License-Identifier: 0BSD */
/*
 * The two-wire bus on two plain pins: low is driven, high is let go.
 *
 * bilge watch, for ATtiny2313A. Written by ullage from a loop file: to change
 * a number, change it there and emit again.
 */
#include "bus.h"

#include "../port/port.h"

bool bus_fault;

static inline void sda_low(void)
{
    DDRB |= PORT_BIT(0);
}

static inline void sda_release(void)
{
    DDRB &= (uint8_t)~PORT_BIT(0);
}

static inline void scl_low(void)
{
    DDRB |= PORT_BIT(1);
}

static inline void scl_release(void)
{
    DDRB &= (uint8_t)~PORT_BIT(1);
}

#define SDA_HIGH(levels) (((levels) & PORT_BIT(0)) != 0)
#define SDA_LEVELS PINB
#define SCL_IS_HIGH() ((PINB & PORT_BIT(1)) != 0)

/* Half a bit: the instructions around it are slow enough for the mode. */
static inline void half_bit(void)
{
}

/* But those after START are not: a call and a return keep the clock high for long enough. */
__attribute__((noinline)) static void hold_start(void)
{
    __asm__ volatile("");
}

/* Lets the clock rise, and waits for a sensor that holds it down: it may, but not for ever. */
__attribute__((noinline)) static void clock_rise(void)
{
    uint16_t patience = fixed_u16(BUS_PATIENCE);

    half_bit();
    scl_release();
    while (!SCL_IS_HIGH()) {
        if (--patience == 0) {
            bus_fault = true;
            break;
        }
    }
    half_bit();
}

/* One clock. Sends bit 7 of `out`; gives what was on the line, zero for low. */
__attribute__((noinline)) static uint8_t clock_bit(uint8_t out)
{
    uint8_t levels;

    if (bus_fault) {
        return 1;
    }
    if ((out & 0x80) != 0) {
        sda_release();
    } else {
        sda_low();
    }
    clock_rise();
    levels = SDA_LEVELS;
    scl_low();
    return levels & PORT_BIT(0);
}

/* Eight clocks, sending and receiving at once. */
__attribute__((noinline)) static uint8_t clock_byte(uint8_t byte)
{
    uint8_t bits = fixed_u8(8);

    do {
        uint8_t in = clock_bit(byte);

        byte = (uint8_t)(byte << 1);
        if (in != 0) {
            ++byte;
        }
    } while (--bits != 0);
    return byte;
}

void bus_put(uint8_t byte)
{
    (void)clock_byte(byte);
    if (clock_bit(0x80) != 0) {
        bus_fault = true;
    }
}

uint8_t bus_get(uint8_t acknowledge)
{
    uint8_t byte = clock_byte(0xFF);

    (void)clock_bit(acknowledge);
    return byte;
}

void bus_stop(void)
{
    /* Already low, unless there is nothing to end: then this is no START. */
    scl_low();
    sda_low();
    clock_rise();
    sda_release();
    half_bit();
}

void bus_start(uint8_t address)
{
    /* A START with nothing behind it but STOP is forbidden on the bus. */
    if (bus_fault) {
        return;
    }
    sda_release();
    clock_rise();
    if (!SDA_HIGH(SDA_LEVELS)) {
        bus_fault = true;
    }
    sda_low();
    hold_start();
    scl_low();
    bus_put(address);
}

void bus_begin(void)
{
    bus_fault = false;
    if (!SDA_HIGH(SDA_LEVELS)) {
        uint8_t clocks = fixed_u8(9);

        do {
            (void)clock_bit(0x80);
        } while (--clocks != 0);
        bus_stop();
    }
}
