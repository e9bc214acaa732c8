<#include "/portable/head.ftl">
<@head about="Moves pins."/>
#include "pins.h"

#include "registers.h"

#define PIN_BIT(pin) (1u << ((pin) & 31u))

void pin_become(uint8_t pin, uint8_t mode)
{
    uint32_t config = 0;

    if (mode == PIN_PULLED_UP) {
        config = GPIO_PIN_CNF_PULL_UP;
    }
    if (mode == PIN_DRIVEN) {
        config = GPIO_PIN_CNF_OUTPUT | GPIO_PIN_CNF_DISCONNECTED;
    }
    if (mode == PIN_ANALOG) {
        config = GPIO_PIN_CNF_DISCONNECTED;
    }
    GPIO_PIN_CNF(pin) = config;
}

/* A peripheral names its pins itself. They are set up as it wants them, and idle high. */
void pin_function(uint8_t pin, uint8_t function)
{
    (void)function;
    pin_drive(pin, true);
    pin_become(pin, PIN_DRIVEN);
}

void pin_function_open(uint8_t pin, uint8_t function)
{
    (void)function;
    pin_release(pin);
}

void pin_drive(uint8_t pin, bool high)
{
    if (high) {
        GPIO_OUTSET = PIN_BIT(pin);
    } else {
        GPIO_OUTCLR = PIN_BIT(pin);
    }
}

void pin_toggle(uint8_t pin)
{
    GPIO_OUT ^= PIN_BIT(pin);
}

bool pin_is_high(uint8_t pin)
{
    return (GPIO_IN & PIN_BIT(pin)) != 0;
}

void pin_low(uint8_t pin)
{
    GPIO_OUTCLR = PIN_BIT(pin);
    GPIO_PIN_CNF(pin) = GPIO_PIN_CNF_OPEN | GPIO_PIN_CNF_OUTPUT;
}

void pin_release(uint8_t pin)
{
    GPIO_PIN_CNF(pin) = GPIO_PIN_CNF_OPEN;
}
