<#include "/portable/head.ftl">
<@head about="Reads the knob."/>
#include "port.h"

#include "registers.h"

/* A conversion takes 96 clocks of the converter, 8 us; one that does not end reads as 0. */
static void wait_for(const volatile uint32_t *flags, uint32_t mask, uint32_t wanted)
{
    uint32_t patience = fixed_u16(0x1000);

    while ((*flags & mask) != wanted && --patience != 0) {
    }
}

uint16_t port_knob(void)
{
    /* From the crystal: slower than the 48 MHz that the converter may have, and all the time it needs. */
    CLOCKS_CLK_ADC_DIV = fixed_u16(KNOB_PRESCALE);
    CLOCKS_CLK_ADC_CTRL = CLOCKS_ENABLE | CLOCKS_CLK_ADC_CTRL_XOSC;
    block_start(RESETS_ADC);
    pin_become(fixed_u8(PIN_KNOB), PIN_ANALOG);
    ADC_FCS = ADC_FCS_EN;
    ADC_CS = ADC_CS_EN | (uint32_t)fixed_u8(KNOB_CHANNEL) << ADC_CS_AINSEL_PLACE;
    wait_for(&ADC_CS, ADC_CS_READY, ADC_CS_READY);
    ADC_CS |= ADC_CS_START_ONCE;
    wait_for(&ADC_FCS, ADC_FCS_EMPTY, 0);
    ADC_CS = 0;
    return (uint16_t)((ADC_FIFO & 0xFFFu) >> 2);
}
