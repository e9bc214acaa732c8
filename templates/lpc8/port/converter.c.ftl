<#include "/portable/head.ftl">
<@head about="Reads the knob."/>
#include "port.h"

#include "registers.h"

<#assign c = family.converter.get().registers>
<#assign calibrates = !(c.calibration?? && c.calibration == "none")>
<#if calibrates>
/* The converter is calibrated before each reading, 0.3 ms, for the supply and the warmth of the hour. */
static void calibrate(void)
{
    uint32_t patience = fixed_u32(BUS_PATIENCE);

    ADC_CTRL = ADC_CTRL_CALMODE | fixed_u8(KNOB_PRESCALE);
    while ((ADC_CTRL & ADC_CTRL_CALMODE) != 0 && --patience != 0) {
    }
    ADC_CTRL = fixed_u8(KNOB_PRESCALE);
}

</#if>
uint16_t port_knob(void)
{
    uint32_t patience = fixed_u32(BUS_PATIENCE);
    uint32_t channel = 1u << fixed_u8(KNOB_CHANNEL);
    uint32_t result;

    SYSCON_ON |= SYSCON_ON_ADC;
    SYSCON_PDRUNCFG &= ~SYSCON_PDRUNCFG_ADC;
<#if c.clock??>
    adc_clock();
</#if>
    pin_become(fixed_u8(PIN_KNOB), PIN_ANALOG);
    pin_function(fixed_u8(PIN_KNOB), (uint8_t)(SWM_ADC_0 + fixed_u8(KNOB_CHANNEL)));
<#if calibrates>
    calibrate();
<#else>
    ADC_CTRL = fixed_u8(KNOB_PRESCALE);
</#if>
    ADC_SEQA_CTRL = ADC_SEQA_CTRL_ONCE | channel;
    do {
        result = ADC_SEQA_GDAT;
    } while ((result & ADC_SEQA_GDAT_VALID) == 0 && --patience != 0);
    /* Channels must not change in the write that ends their sequence. */
    ADC_SEQA_CTRL = channel;
    /* The upper ten of twelve bits, which begin at bit 4. */
    return (uint16_t)(result >> 6 & 0x3FFu);
}
