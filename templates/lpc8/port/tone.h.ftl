<#if tone??>
<#include "/portable/head.ftl">
<@head about="Makes the sounder's tone."/>
#ifndef TONE_H
#define TONE_H

#include "pins.h"
#include "registers.h"

/*
 * One event, the match, ends a round and both sets and clears the output, which the conflict
 * resolution turns into a change of sides. Match registers take a write only while the timer halts.
 */
static inline void port_sounder(bool on)
{
    if (on) {
        SYSCON_ON |= SYSCON_ON_SCT;
        tone_clock();
        SCT_CTRL = SCT_CTRL_HALTS;
        SCT_CONFIG = SCT_CONFIG_UNIFY;
        SCT_LIMIT = SCT_EVENT0;
        SCT_MATCH0 = fixed_u32(TONE_TOP);
        SCT_MATCHREL0 = fixed_u32(TONE_TOP);
        SCT_EV0_STATE = SCT_STATE0;
        SCT_EV0_CTRL = SCT_EV0_CTRL_MATCH0;
        SCT_OUT0_SET = SCT_EVENT0;
        SCT_OUT0_CLR = SCT_EVENT0;
        SCT_RES = SCT_RES_TOGGLES_0;
        SCT_CTRL = SCT_CTRL_STARTS_OVER;
        pin_function(fixed_u8(PIN_SOUNDER), fixed_u8(TONE_OUT));
    } else {
        pin_function(PIN_NONE, fixed_u8(TONE_OUT));
    }
}

#endif
</#if>
