<#include "/portable/head.ftl">
<@head about="Sends characters."/>
#include "port.h"

#include "registers.h"

void port_serial_begin(void)
{
    pin_function(fixed_u8(PIN_TRANSMIT), 0);
    UART_PSELTXD = fixed_u8(PIN_TRANSMIT);
    UART_BAUDRATE = fixed_u32(SERIAL_RATE);
    UART_ENABLE = UART_ENABLE_ON;
    UART_TASKS_STARTTX = 1u;
}

void port_serial_send(uint8_t character)
{
    UART_EVENTS_TXDRDY = 0;
    UART_TXD = character;
    /* Nothing tells of room for a next character but that this one is gone, after ten bits. */
    while (UART_EVENTS_TXDRDY == 0) {
    }
}
