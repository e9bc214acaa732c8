<#include "/portable/head.ftl">
<@head about="The two-wire bus on two plain pins: low is driven, high is let go."/>
#include "bus.h"

#include "../port/port.h"
<#if t.delay != "none">

#include <util/delay_basic.h>
</#if>

bool bus_fault;

<#macro line name role>
static inline void ${name}_low(void)
{
    DDR${pin[role].port} |= PORT_BIT(${pin[role].bit});
}

static inline void ${name}_release(void)
{
    DDR${pin[role].port} &= (uint8_t)~PORT_BIT(${pin[role].bit});
}

</#macro>
<@line "sda" "sda"/>
<@line "scl" "scl"/>
#define SDA_HIGH(levels) (((levels) & PORT_BIT(${pin.sda.bit})) != 0)
#define SDA_LEVELS PIN${pin.sda.port}
#define SCL_IS_HIGH() ((PIN${pin.scl.port} & PORT_BIT(${pin.scl.bit})) != 0)

<#if t.delay == "none">
/* Half a bit: the instructions around it are slow enough for the mode. */
static inline void half_bit(void)
{
}

/* But those after START are not: a call and a return keep the clock high for long enough. */
__attribute__((noinline)) static void hold_start(void)
{
    __asm__ volatile("");
}
<#else>
/* Half a bit, less what the instructions around it take. */
__attribute__((noinline)) static void half_bit(void)
{
<#if t.delay == "short">
    _delay_loop_1(fixed_u8(BUS_HALF_BIT));
<#else>
    _delay_loop_2(fixed_u16(BUS_HALF_BIT));
</#if>
}
</#if>

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
    return levels & PORT_BIT(${pin.sda.bit});
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
    <#if t.delay == "none">hold_start<#else>half_bit</#if>();
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
