<#include "/portable/head.ftl">
<@head about="Pins: what they are, and their levels."/>
#include "pins.h"

#include "registers.h"

/* Four bits of configuration for each pin: RM0008 9.2.1 and 9.2.2, and the manuals alike. */
#define CONFIG_INPUT 4u
#define CONFIG_INPUT_PULLED 8u
#define CONFIG_OUTPUT 2u
#define CONFIG_FUNCTION 10u
#define CONFIG_FUNCTION_OPEN 14u

/* The highest two bits of a pin's number say which block, and the next which register. */
static volatile uint32_t *block(uint8_t pin)
{
    return (volatile uint32_t *)(GPIO_BASE + (uint32_t)(pin >> 4) * GPIO_STEP);
}

static uint32_t mask(uint8_t pin)
{
    return 1u << (pin & 15u);
}

static void configure(uint8_t pin, uint32_t config)
{
    volatile uint32_t *with = block(pin) + ((pin >> 3) & 1u);
    uint32_t shift = (uint32_t)(pin & 7u) * 4u;

    *with = (*with & ~(15u << shift)) | (config << shift);
}

void pin_become(uint8_t pin, uint8_t mode)
{
    uint32_t config = 0;

    if (mode == PIN_PULLED_UP) {
        pin_drive(pin, true);
        config = CONFIG_INPUT_PULLED;
    }
    if (mode == PIN_DRIVEN) {
        config = CONFIG_OUTPUT;
    }
    if (mode == PIN_FLOATING) {
        config = CONFIG_INPUT;
    }
    configure(pin, config);
}

/* The number is not of the pin but of the peripheral here: see the remap words. */
void pin_function(uint8_t pin, uint8_t function)
{
    (void)function;
    configure(pin, CONFIG_FUNCTION);
}

void pin_function_open(uint8_t pin, uint8_t function)
{
    (void)function;
    configure(pin, CONFIG_FUNCTION_OPEN);
}

void pin_drive(uint8_t pin, bool high)
{
    block(pin)[high ? GPIO_SET : GPIO_CLEAR] = mask(pin);
}

void pin_toggle(uint8_t pin)
{
    pin_drive(pin, (block(pin)[GPIO_OUT] & mask(pin)) == 0);
}

bool pin_is_high(uint8_t pin)
{
    return (block(pin)[GPIO_IN] & mask(pin)) != 0;
}

void pin_low(uint8_t pin)
{
    pin_drive(pin, false);
    configure(pin, CONFIG_OUTPUT);
}

void pin_release(uint8_t pin)
{
    configure(pin, CONFIG_INPUT);
}
