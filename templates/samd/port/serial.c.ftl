<#include "/portable/head.ftl">
<@head about="Sends characters."/>
#include "port.h"

#include "registers.h"

void port_serial_begin(void)
{
    PM_APBCMASK |= PM_APBCMASK_USART;
    GCLK_CLKCTRL = GCLK_CLKCTRL_ON | GCLK_USART;
    USART_BAUD = fixed_u16(SERIAL_DIVIDER);
    USART_CTRLB = USART_CTRLB_TXEN;
    USART_CTRLA = USART_CTRLA_PLAIN | (uint32_t)fixed_u8(SERIAL_PAD) << USART_CTRLA_TXPO_PLACE |
                  USART_CTRLA_ENABLE;
    pin_function(fixed_u8(PIN_TRANSMIT), fixed_u8(SERIAL_AF));
}

void port_serial_send(uint8_t character)
{
    /* The sender takes the next character after ten bits at most. */
    while ((USART_INTFLAG & USART_INTFLAG_DRE) == 0) {
    }
    USART_DATA = character;
<#if t.flush == "yes">
    /* Deep sleep would stop the sender in the middle of a character. */
    while ((USART_INTFLAG & USART_INTFLAG_TXC) == 0) {
    }
</#if>
}
