<#if tone??>
<#include "/portable/head.ftl">
<@head about="Makes the sounder's tone."/>
#ifndef TONE_H
#define TONE_H

#include "pins.h"
#include "registers.h"

/* Each match starts the timer over and changes the side of its output. */
static inline void port_sounder(bool on)
{
    if (on) {
        SYSCON_ON |= SYSCON_ON_CTIMER0;
        CTIMER_TCR = CTIMER_TCR_RESET;
        CTIMER_MR0 = fixed_u32(TONE_TOP);
        CTIMER_MCR = CTIMER_MCR_MR0R;
        CTIMER_EMR = CTIMER_EMR_TOGGLES_0;
        CTIMER_TCR = CTIMER_TCR_RUNS;
        pin_function(fixed_u8(PIN_SOUNDER), fixed_u8(TONE_OUT));
    } else {
        pin_function(PIN_NONE, fixed_u8(TONE_OUT));
    }
}

#endif
</#if>
