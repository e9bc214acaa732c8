<#include "/portable/head.ftl">
<@head about="Moves pins."/>
#include "pins.h"

#include "registers.h"

#define PIN_BIT(pin) (1u << ((pin) & 15u))

/* A port has two bits for each pin in the registers for its mode and its pull-up. */
static void set_field(volatile uint32_t *fields, uint8_t pin, uint32_t value)
{
    uint32_t place = (pin & 15u) * 2u;

    *fields = (*fields & ~(3u << place)) | (value << place);
}

/* 0 reads, 1 drives, 2 leaves the pin to a peripheral, 3 leaves it to the converter. */
static void set_mode(uint8_t pin, uint32_t mode)
{
    set_field(&GPIO_MODER(pin), pin, mode);
}

void pin_become(uint8_t pin, uint8_t mode)
{
    set_field(&GPIO_PUPDR(pin), pin, mode == PIN_PULLED_UP ? 1u : 0u);
    set_mode(pin, mode == PIN_ANALOG ? 3u : mode == PIN_DRIVEN ? 1u : 0u);
}

void pin_function(uint8_t pin, uint8_t function)
{
    volatile uint32_t *functions = &GPIO_AFR(pin);
    uint32_t place = (pin & 7u) * 4u;

    *functions = (*functions & ~(15u << place)) | ((uint32_t)function << place);
    set_mode(pin, 2);
}

void pin_function_open(uint8_t pin, uint8_t function)
{
    GPIO_OTYPER(pin) |= PIN_BIT(pin);
    pin_function(pin, function);
}

void pin_drive(uint8_t pin, bool high)
{
    GPIO_BSRR(pin) = high ? PIN_BIT(pin) : PIN_BIT(pin) << 16;
}

void pin_toggle(uint8_t pin)
{
    GPIO_ODR(pin) ^= PIN_BIT(pin);
}

bool pin_is_high(uint8_t pin)
{
    return (GPIO_IDR(pin) & PIN_BIT(pin)) != 0;
}

void pin_low(uint8_t pin)
{
    GPIO_BSRR(pin) = PIN_BIT(pin) << 16;
    set_mode(pin, 1);
}

void pin_release(uint8_t pin)
{
    set_mode(pin, 0);
}
