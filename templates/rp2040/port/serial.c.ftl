<#include "/portable/head.ftl">
<@head about="Sends characters."/>
#include "port.h"

#include "registers.h"

void port_serial_begin(void)
{
    /* From the core's clock. */
    CLOCKS_CLK_PERI_CTRL = CLOCKS_ENABLE;
    block_start(RESETS_UART0);
    UARTIBRD = fixed_u16(SERIAL_DIVIDER);
    UARTFBRD = fixed_u8(SERIAL_FRACTION);
    /* The divider is taken over by this write. */
    UARTLCR_H = UARTLCR_H_8_BITS;
    UARTCR = UARTCR_SENDS;
    pin_function(fixed_u8(PIN_TRANSMIT), IO_UART);
}

void port_serial_send(uint8_t character)
{
    /* A place in the FIFO is free after ten bits at most. */
    while ((UARTFR & UARTFR_TXFF) != 0) {
    }
    UARTDR = character;
}
