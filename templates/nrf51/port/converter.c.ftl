<#include "/portable/head.ftl">
<@head about="Reads the knob."/>
#include "port.h"

#include "registers.h"

uint16_t port_knob(void)
{
    uint32_t patience = fixed_u32(BUS_PATIENCE);

    pin_become(fixed_u8(PIN_KNOB), PIN_ANALOG);
    ADC_CONFIG = ADC_CONFIG_KNOB | (1u << ADC_CONFIG_PSEL_PLACE) << fixed_u8(KNOB_CHANNEL);
    ADC_ENABLE = 1u;
    ADC_EVENTS_END = 0;
    ADC_TASKS_START = 1u;
    /* A conversion takes 68 us; one that does not end reads as what was there. */
    while (ADC_EVENTS_END == 0 && --patience != 0) {
    }
    /* The converter draws current until it is stopped. */
    ADC_TASKS_STOP = 1u;
    return (uint16_t)(ADC_RESULT & 0x3FFu);
}
