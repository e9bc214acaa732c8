<#include "/portable/head.ftl">
<@head about="Moves pins, and leads functions to them."/>
#include "pins.h"

#include "registers.h"

/* Functions that have a pin of their own, by their bit; the others by their byte. */
#define PIN_FIXED 0x80u

/* Where the register of a pin is: their order follows no rule. */
static const uint8_t pin_places[PIN_COUNT] = {PIN_PLACES};

static uint32_t mask(uint8_t pin)
{
    return 1u << (pin & 31u);
}

static void configure(uint8_t pin, uint32_t config)
{
#ifdef PIN_PAIR
    if ((pin | 1u) == PIN_PAIR) {
        config = config == IOCON_OPEN ? IOCON_PAIR_BUS : IOCON_PAIR_PLAIN;
    }
#endif
    IOCON(pin_places[pin]) = config;
}

void pin_become(uint8_t pin, uint8_t mode)
{
    configure(pin, mode == PIN_PULLED_UP ? IOCON_PULL_UP : IOCON_PLAIN);
    if (mode == PIN_DRIVEN) {
        GPIO_DIR(pin) |= mask(pin);
    } else {
        GPIO_DIR(pin) &= ~mask(pin);
    }
}

/* A number of 255 takes the function away from where it is: the pin is a plain one then. */
void pin_function(uint8_t pin, uint8_t function)
{
    if ((function & PIN_FIXED) != 0) {
        uint32_t bit = mask(function);

        SWM_PINENABLE0 = pin == PIN_NONE ? SWM_PINENABLE0 | bit : SWM_PINENABLE0 & ~bit;
    } else {
        uint32_t place = (function & 3u) * 8u;

        SWM_PINASSIGN(function) = (SWM_PINASSIGN(function) & ~(0xFFu << place)) | (uint32_t)pin << place;
    }
}

void pin_function_open(uint8_t pin, uint8_t function)
{
    configure(pin, IOCON_OPEN);
    pin_function(pin, function);
}

void pin_drive(uint8_t pin, bool high)
{
    GPIO_LEVEL(pin) = high;
}

void pin_toggle(uint8_t pin)
{
    GPIO_NOT(pin) = mask(pin);
}

bool pin_is_high(uint8_t pin)
{
    return GPIO_LEVEL(pin) != 0;
}

void pin_low(uint8_t pin)
{
    GPIO_LEVEL(pin) = 0;
    GPIO_DIR(pin) |= mask(pin);
}

void pin_release(uint8_t pin)
{
    GPIO_DIR(pin) &= ~mask(pin);
}
