<#if tone??>
<#include "/portable/head.ftl">
<@head about="The sounder's tone."/>
#ifndef TONE_H
#define TONE_H

#include "pins.h"
#include "registers.h"

<#assign r = tone.timer.registers>
/* A match toggles the pin, RM0008 15.3.8; without a tone the pin is a plain output, and low. */
static inline void port_sounder(bool on)
{
    if (on) {
        ${r.enable} |= ${r.enable_bit};
        TONE_PRESCALER = fixed_u16(TONE_CLOCK_SELECT);
        TONE_RELOAD = fixed_u16(TONE_TOP);
        TONE_MODE = TONE_TOGGLES;
        TONE_ENABLE = 1u;
        TONE_UPDATE = 1u;
        TONE_CONTROL = 1u;
        pin_function(fixed_u8(PIN_SOUNDER), 0);
    } else {
        pin_become(fixed_u8(PIN_SOUNDER), PIN_DRIVEN);
    }
}

#endif
</#if>
