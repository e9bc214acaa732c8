<#include "/portable/head.ftl">
<@head about="Pins, by their numbers."/>
#ifndef PINS_H
#define PINS_H

#include "../src/config.h"

/* What a pin can be. */
#define PIN_FLOATING 0u
#define PIN_PULLED_UP 1u
#define PIN_DRIVEN 2u
#define PIN_ANALOG 3u

void pin_become(uint8_t pin, uint8_t mode);

/* Hands a pin to a peripheral: the number says which. Driven both ways, or pulled low only. */
void pin_function(uint8_t pin, uint8_t function);
void pin_function_open(uint8_t pin, uint8_t function);

void pin_drive(uint8_t pin, bool high);
void pin_toggle(uint8_t pin);
bool pin_is_high(uint8_t pin);

/* A line that is pulled up outside: driven low, or let go. */
void pin_low(uint8_t pin);
void pin_release(uint8_t pin);

#endif
