<#include "/portable/head.ftl">
<@head about="Moves pins."/>
#include "pins.h"

#include "registers.h"

#define PIN_BIT(pin) (1u << ((pin) & 31u))

void pin_become(uint8_t pin, uint8_t mode)
{
    uint8_t config = mode == PIN_ANALOG ? 0 : PORT_PINCFG_INEN;

    if (mode == PIN_PULLED_UP) {
        config = PORT_PINCFG_INEN | PORT_PINCFG_PULLEN;
        /* What the pin would drive is what it is pulled to. */
        pin_drive(pin, true);
    }
    if (mode == PIN_DRIVEN) {
        PORT_DIRSET(pin) = PIN_BIT(pin);
    } else {
        PORT_DIRCLR(pin) = PIN_BIT(pin);
    }
    PORT_PINCFG(pin) = config;
}

/* 0 is function A of the data sheet, 1 is B. */
void pin_function(uint8_t pin, uint8_t function)
{
    volatile uint8_t *functions = &PORT_PMUX(pin);
    uint32_t place = (pin & 1u) * 4u;

    *functions = (uint8_t)((*functions & ~(15u << place)) | ((uint32_t)function << place));
    PORT_PINCFG(pin) = PORT_PINCFG_PMUXEN | PORT_PINCFG_INEN;
}

/* The two-wire controller pulls low only by itself. */
void pin_function_open(uint8_t pin, uint8_t function)
{
    pin_function(pin, function);
}

void pin_drive(uint8_t pin, bool high)
{
    if (high) {
        PORT_OUTSET(pin) = PIN_BIT(pin);
    } else {
        PORT_OUTCLR(pin) = PIN_BIT(pin);
    }
}

void pin_toggle(uint8_t pin)
{
    PORT_OUTTGL(pin) = PIN_BIT(pin);
}

bool pin_is_high(uint8_t pin)
{
    return (PORT_IN(pin) & PIN_BIT(pin)) != 0;
}

/* The pin has been released before, so that it can be read. */
void pin_low(uint8_t pin)
{
    PORT_OUTCLR(pin) = PIN_BIT(pin);
    PORT_DIRSET(pin) = PIN_BIT(pin);
}

void pin_release(uint8_t pin)
{
    PORT_DIRCLR(pin) = PIN_BIT(pin);
    PORT_PINCFG(pin) = PORT_PINCFG_INEN;
}
