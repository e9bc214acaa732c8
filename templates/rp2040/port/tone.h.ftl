<#include "/portable/head.ftl">
<@head about="Makes the sounder's tone."/>
#ifndef TONE_H
#define TONE_H

<#if tone??>
#include "pins.h"
#include "registers.h"

/* High for the first half of each round: both outputs of the slice, of which one leads to the pin. */
static inline void port_sounder(bool on)
{
    uint8_t pin = fixed_u8(PIN_SOUNDER);

    if (on) {
        uint32_t top = fixed_u16(TONE_TOP);
        uint32_t half = (top + 1) >> 1;

        block_start(RESETS_PWM);
        PWM_DIV(pin) = fixed_u16(TONE_CLOCK_SELECT);
        PWM_CC(pin) = half << 16 | half;
        PWM_TOP(pin) = top;
        PWM_CSR(pin) = PWM_CSR_EN;
        pin_function(pin, IO_PWM);
    } else {
        pin_drive(pin, false);
        pin_become(pin, PIN_DRIVEN);
    }
}

</#if>
#endif
