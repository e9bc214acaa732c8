<#include "/portable/head.ftl">
<@head about="Makes the sounder's tone."/>
#ifndef TONE_H
#define TONE_H

<#if tone??>
#include "pins.h"
#include "registers.h"

/* Each time the timer starts over, its first waveform output changes sides. */
static inline void port_sounder(bool on)
{
    if (on) {
        PM_APBCMASK |= PM_APBCMASK_TC;
        GCLK_CLKCTRL = GCLK_CLKCTRL_ON | GCLK_TC;
        TC_CC0 = fixed_u16(TONE_TOP);
        TC_CTRLA = (uint16_t)(fixed_u16(TONE_CLOCK_SELECT) | TC_CTRLA_MFRQ | TC_CTRLA_ENABLE);
        pin_function(fixed_u8(PIN_SOUNDER), fixed_u8(TONE_AF));
    } else {
        pin_drive(fixed_u8(PIN_SOUNDER), false);
        pin_become(fixed_u8(PIN_SOUNDER), PIN_DRIVEN);
    }
}

</#if>
#endif
