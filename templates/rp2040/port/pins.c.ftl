<#include "/portable/head.ftl">
<@head about="Moves pins."/>
#include "pins.h"

#include "registers.h"

static uint32_t bit_of(uint8_t pin)
{
    return (uint32_t)1 << pin;
}

/* A pin is pulled down after a reset: whatever it becomes, its pad has to be told. */
static void connect(uint8_t pin, uint32_t pad, uint32_t block)
{
    PADS_GPIO(pin) = pad;
    IO_CTRL(pin) = block;
}

void pin_become(uint8_t pin, uint8_t mode)
{
    if (mode == PIN_DRIVEN) {
        SIO_GPIO_OE_SET = bit_of(pin);
    } else {
        SIO_GPIO_OE_CLR = bit_of(pin);
    }
    if (mode == PIN_ANALOG) {
        connect(pin, PADS_ANALOG, IO_NONE);
    } else {
        connect(pin, mode == PIN_PULLED_UP ? PADS_PLAIN | PADS_PULL_UP : PADS_PLAIN, IO_SIO);
    }
}

void pin_function(uint8_t pin, uint8_t function)
{
    connect(pin, PADS_PLAIN, function);
}

/* The two-wire block itself never drives a line high. */
void pin_function_open(uint8_t pin, uint8_t function)
{
    pin_function(pin, function);
}

void pin_drive(uint8_t pin, bool high)
{
    if (high) {
        SIO_GPIO_OUT_SET = bit_of(pin);
    } else {
        SIO_GPIO_OUT_CLR = bit_of(pin);
    }
}

void pin_toggle(uint8_t pin)
{
    SIO_GPIO_OUT_XOR = bit_of(pin);
}

bool pin_is_high(uint8_t pin)
{
    return (SIO_GPIO_IN & bit_of(pin)) != 0;
}

void pin_low(uint8_t pin)
{
    SIO_GPIO_OUT_CLR = bit_of(pin);
    SIO_GPIO_OE_SET = bit_of(pin);
    connect(pin, PADS_PLAIN, IO_SIO);
}

void pin_release(uint8_t pin)
{
    SIO_GPIO_OE_CLR = bit_of(pin);
    connect(pin, PADS_PLAIN, IO_SIO);
}
