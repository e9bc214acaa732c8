<#include "/portable/head.ftl">
<@head about="Sends characters."/>
#include "port.h"
#include "registers.h"

void port_serial_begin(void)
{
    ${family.serialPort.get().registers.enable} |= ${family.serialPort.get().registers.enable_bit};
    SERIAL_RATE = fixed_u16(SERIAL_DIVIDER);
    SERIAL_CONTROL = SERIAL_ON | SERIAL_SENDS;
    pin_function(fixed_u8(PIN_TRANSMIT), 0);
}

void port_serial_send(uint8_t character)
{
    /* The sender takes the next character after ten bits at most. */
    while ((SERIAL_STATUS & SERIAL_EMPTY) == 0) {
    }
    SERIAL_DATA = character;
<#if t.flush == "yes">
    /* Deep sleep would stop the sender in the middle of a character. */
    while ((SERIAL_STATUS & 0x40u) == 0) {
    }
</#if>
}
