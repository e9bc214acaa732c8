/* SPDX-License-Identifier: 0BSD */
/*
 * Reads the knob.
 *
 * cold-store guard, for STM32F030F4. Written by ullage from a loop file: to change
 * a number, change it there and emit again.
 */
#include "port.h"

#include "registers.h"

/* Every step ends within 0.4 ms, unless the converter is broken. */
static void wait_for(const volatile uint32_t *flags, uint32_t mask, uint32_t wanted)
{
    uint32_t patience = fixed_u32(BUS_PATIENCE);

    while ((*flags & mask) != wanted && --patience != 0) {
    }
}

/* The converter does not hear this for four of its clocks after the calibration, so it is repeated. */
static void enable(void)
{
    uint8_t times = fixed_u8(16);

    do {
        ADC_CR |= ADC_CR_ADEN;
    } while (--times != 0);
}

uint16_t port_knob(void)
{
    pin_become(fixed_u8(PIN_KNOB), PIN_ANALOG);
    RCC_ADC |= RCC_ADC_ON;
    ADC_CFGR2 = fixed_u32(KNOB_PRESCALE);
    ADC_CFGR1 = ADC_CFGR1_10_BITS;
    ADC_SMPR = ADC_SMPR_LONGEST;
    ADC_CR |= ADC_CR_ADCAL;
    wait_for(&ADC_CR, ADC_CR_ADCAL, 0);
    ADC_ISR = ADC_ISR_READY | ADC_ISR_EOC;
    enable();
    ADC_CHSELR = 1u << fixed_u8(KNOB_CHANNEL);
    wait_for(&ADC_ISR, ADC_ISR_READY, ADC_ISR_READY);
    ADC_CR |= ADC_CR_ADSTART;
    wait_for(&ADC_ISR, ADC_ISR_EOC, ADC_ISR_EOC);
    ADC_CR |= ADC_CR_ADDIS;
    return (uint16_t)ADC_DR;
}
