<#include "/portable/head.ftl">
<@head about="Sends characters."/>
#include "port.h"

#include "registers.h"

void port_serial_begin(void)
{
    RCC_USART |= RCC_USART_ON;
    USART_BRR = fixed_u16(SERIAL_DIVIDER);
    USART_CR1 = USART_CR1_UE | USART_CR1_TE;
    pin_function(fixed_u8(PIN_TRANSMIT), fixed_u8(SERIAL_AF));
}

void port_serial_send(uint8_t character)
{
    /* The sender takes the next character after ten bits at most. */
    while ((USART_ISR & USART_ISR_TXE) == 0) {
    }
    USART_TDR = character;
<#if t.flush == "yes">
    /* Deep sleep would stop the sender in the middle of a character. */
    while ((USART_ISR & 0x40u) == 0) {
    }
</#if>
}
