<#include "/portable/head.ftl">
<@head about="Reads the knob."/>
#include "port.h"

#include "registers.h"

/* Function B of a pin. */
#define CONVERTER_FUNCTION 1u

/* Every step ends within 0.3 ms, unless the converter is broken. */
static void wait_for(const volatile uint8_t *flags, uint8_t mask, uint8_t wanted)
{
    uint32_t patience = fixed_u32(BUS_PATIENCE);

    while ((*flags & mask) != wanted && --patience != 0) {
    }
}

/* A register is behind a clock of its own, and takes some of its ticks to change. */
static void settle(void)
{
    wait_for(&ADC_STATUS, ADC_STATUS_SYNCBUSY, 0);
}

static uint16_t convert(void)
{
    ADC_SWTRIG = ADC_SWTRIG_START;
    wait_for(&ADC_INTFLAG, ADC_INTFLAG_RESRDY, ADC_INTFLAG_RESRDY);
    settle();
    return ADC_RESULT;
}

uint16_t port_knob(void)
{
    uint16_t result;

    pin_function(fixed_u8(PIN_KNOB), CONVERTER_FUNCTION);
    PM_APBCMASK |= PM_APBCMASK_ADC;
    GCLK_CLKCTRL = GCLK_CLKCTRL_ON | GCLK_ADC;
    /* Five bits of linearity, then three more of it and three of bias. */
    ADC_CALIB = (uint16_t)((CALIBRATION_1 & 0x3Fu) << 5 | CALIBRATION_0 >> 27);
    ADC_REFCTRL = ADC_REFCTRL_HALF_SUPPLY;
    ADC_SAMPCTRL = ADC_SAMPCTRL_LONGEST;
    ADC_CTRLB = (uint16_t)(ADC_CTRLB_10_BITS | fixed_u16(KNOB_PRESCALE));
    settle();
    ADC_INPUTCTRL = ADC_INPUTCTRL_HALF | fixed_u8(KNOB_CHANNEL);
    settle();
    ADC_CTRLA = ADC_CTRLA_ENABLE;
    settle();
    /* The first result after a change of the reference is not to be used. */
    (void)convert();
    result = convert();
    ADC_CTRLA = 0;
    settle();
    return result;
}
