/* SPDX-License-Identifier: 0BSD */
/*
 * Makes the sounder's tone.
 *
 * cold-store guard, for STM32F030F4. Written by ullage from a loop file: to change
 * a number, change it there and emit again.
 */
#ifndef TONE_H
#define TONE_H

#include "pins.h"
#include "registers.h"

/* Each time the timer starts over, its first compare output changes sides. */
static inline void port_sounder(bool on)
{
    if (on) {
        RCC_TIM |= RCC_TIM_ON;
        TIM_PSC = fixed_u16(TONE_CLOCK_SELECT);
        TIM_ARR = fixed_u16(TONE_TOP);
        TIM_CCMR1 = TIM_CCMR1_OC1M_TOGGLE;
        TIM_CCER = TIM_CCER_CC1E;
        /* Or the divider would count from the next round only. */
        TIM_EGR = TIM_EGR_UG;
        TIM_CR1 = TIM_CR1_CEN;
        pin_function(fixed_u8(PIN_SOUNDER), fixed_u8(TONE_AF));
    } else {
        pin_drive(fixed_u8(PIN_SOUNDER), false);
        pin_become(fixed_u8(PIN_SOUNDER), PIN_DRIVEN);
    }
}

#endif
