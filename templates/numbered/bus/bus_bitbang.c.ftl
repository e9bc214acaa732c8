<#include "/portable/head.ftl">
<@head about="The two-wire bus on two plain pins: low is driven, high is let go."/>
#include "bus.h"

#include "../port/port.h"

bool bus_fault;

<#include "half_bit.ftl">

/* Lets the clock rise, and waits for a sensor that holds it down: it may, but not for ever. */
__attribute__((noinline)) static void clock_rise(void)
{
    uint32_t patience = fixed_u32(BUS_PATIENCE);

    half_bit();
    pin_release(fixed_u8(PIN_SCL));
    while (!pin_is_high(fixed_u8(PIN_SCL))) {
        if (--patience == 0) {
            bus_fault = true;
            break;
        }
    }
    half_bit();
}

/* One clock. Sends bit 7 of `out`; gives what was on the line. */
__attribute__((noinline)) static bool clock_bit(uint8_t out)
{
    bool in;

    if (bus_fault) {
        return true;
    }
    if ((out & 0x80) != 0) {
        pin_release(fixed_u8(PIN_SDA));
    } else {
        pin_low(fixed_u8(PIN_SDA));
    }
    clock_rise();
    in = pin_is_high(fixed_u8(PIN_SDA));
    pin_low(fixed_u8(PIN_SCL));
    return in;
}

/* Eight clocks, sending and receiving at once. */
__attribute__((noinline)) static uint8_t clock_byte(uint8_t byte)
{
    uint8_t bits = fixed_u8(8);

    do {
        bool in = clock_bit(byte);

        byte = (uint8_t)(byte << 1);
        if (in) {
            ++byte;
        }
    } while (--bits != 0);
    return byte;
}

void bus_put(uint8_t byte)
{
    (void)clock_byte(byte);
    if (clock_bit(0x80)) {
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
    pin_low(fixed_u8(PIN_SCL));
    pin_low(fixed_u8(PIN_SDA));
    clock_rise();
    pin_release(fixed_u8(PIN_SDA));
    half_bit();
}

void bus_start(uint8_t address)
{
    /* A START with nothing behind it but STOP is forbidden on the bus. */
    if (bus_fault) {
        return;
    }
    pin_release(fixed_u8(PIN_SDA));
    clock_rise();
    if (!pin_is_high(fixed_u8(PIN_SDA))) {
        bus_fault = true;
    }
    pin_low(fixed_u8(PIN_SDA));
    half_bit();
    pin_low(fixed_u8(PIN_SCL));
    bus_put(address);
}

void bus_begin(void)
{
    bus_fault = false;
    pin_release(fixed_u8(PIN_SDA));
    pin_release(fixed_u8(PIN_SCL));
    half_bit();
    if (!pin_is_high(fixed_u8(PIN_SDA))) {
        uint8_t clocks = fixed_u8(9);

        do {
            (void)clock_bit(0x80);
        } while (--clocks != 0);
        bus_stop();
    }
}
