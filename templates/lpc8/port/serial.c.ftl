<#include "/portable/head.ftl">
<@head about="Sends characters."/>
#include "port.h"

#include "registers.h"

/* The divider counts what the core's clock is made of, before that is divided. */
void port_serial_begin(void)
{
    SYSCON_ON |= SYSCON_ON_USART;
    serial_clock(fixed_u8(SERIAL_FRACTION));
    USART_BRG = fixed_u16(SERIAL_DIVIDER) * SYSCON_SYSAHBCLKDIV - 1u;
    USART_CFG = USART_CFG_ON;
    pin_function(fixed_u8(PIN_TRANSMIT), fixed_u8(SERIAL_TXD));
}

void port_serial_send(uint8_t character)
{
    /* The sender takes the next character after ten bits at most. */
    while ((USART_STAT & USART_STAT_TXRDY) == 0) {
    }
    USART_TXDAT = character;
<#if t.flush == "yes">
    /* Deep sleep would stop the sender in the middle of a character. */
    while ((USART_STAT & USART_STAT_TXIDLE) == 0) {
    }
</#if>
}
