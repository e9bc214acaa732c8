<#include "/portable/head.ftl">
<@head about="Pins of a board whose lamps and bus lines are bits of other blocks."/>
#include "pins.h"

/* FPGA system control I/O, LED0: DAI 0385D, table 4-5. */
#define LAMPS (*(volatile uint32_t *)0x40028000u)

/*
 * Two-wire block SBCon of the shield: DAI 0385D, table 4-2. Both lines are
 * read at the first word; ones written there let go, ones written to the
 * second pull low. Bit 0 is the clock, bit 1 the data: DDI 0224, 3.19.
 */
#define LINES (*(volatile uint32_t *)(BLOCK + 0u))
#define LINES_LOW (*(volatile uint32_t *)(BLOCK + 4u))
#define BLOCK 0x4002A000u

static uint32_t mask(uint8_t pin)
{
    return (uint32_t)1u << (pin & 15u);
}

static bool is_lamp(uint8_t pin)
{
    return pin < 16u;
}

void pin_become(uint8_t pin, uint8_t mode)
{
    (void)pin;
    (void)mode;
}

void pin_release(uint8_t pin)
{
    LINES = mask(pin);
}

void pin_low(uint8_t pin)
{
    LINES_LOW = mask(pin);
}

bool pin_is_high(uint8_t pin)
{
    return ((is_lamp(pin) ? LAMPS : LINES) & mask(pin)) != 0;
}

void pin_drive(uint8_t pin, bool high)
{
    if (high) {
        LAMPS |= mask(pin);
    } else {
        LAMPS &= ~mask(pin);
    }
}

void pin_toggle(uint8_t pin)
{
    LAMPS ^= mask(pin);
}
