<#include "/portable/head.ftl">
<@head about="Makes the sounder's tone."/>
#ifndef TONE_H
#define TONE_H

<#if tone??>
#include "pins.h"
#include "registers.h"

/* Each time the timer starts over, a channel from its event to a task of the pin changes sides. */
static inline void port_sounder(bool on)
{
    if (on) {
        GPIOTE_CONFIG0 = GPIOTE_CONFIG_TASK_TOGGLES |
                         (uint32_t)fixed_u8(PIN_SOUNDER) << GPIOTE_CONFIG_PSEL_PLACE;
        PPI_CH1_EEP = TIMER2_EVENTS_COMPARE0_PLACE;
        PPI_CH1_TEP = GPIOTE_TASKS_OUT0_PLACE;
        PPI_CHENSET = PPI_CHEN_TONE;
        TIMER2_PRESCALER = fixed_u8(TONE_CLOCK_SELECT);
        TIMER2_CC0 = fixed_u16(TONE_TOP) + 1u;
        TIMER2_SHORTS = TIMER_SHORTS_COMPARE0_CLEAR;
        /* Without this the event may not reach the pin (anomaly 73). */
        REGISTER(0x4000AC0Cu) = 1u;
        TIMER2_TASKS_START = 1u;
    } else {
        /* The pin is a plain output again, and low. */
        TIMER2_TASKS_SHUTDOWN = 1u;
        GPIOTE_CONFIG0 = 0;
    }
}

</#if>
#endif
