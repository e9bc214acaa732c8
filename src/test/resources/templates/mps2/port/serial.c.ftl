<#include "/portable/head.ftl">
<@head about="Sends characters."/>
#include "port.h"

/* CMSDK APB UART 0: DAI 0385D, table 4-2; DDI 0479D, 4.3. */
#define DATA (*(volatile uint32_t *)0x40004000u)
#define STATE (*(volatile uint32_t *)0x40004004u)
#define CONTROL (*(volatile uint32_t *)0x40004008u)
#define DIVIDER (*(volatile uint32_t *)0x40004010u)
#define FULL 1u
#define SENDS 1u

void port_serial_begin(void)
{
    DIVIDER = fixed_u32(SERIAL_DIVIDER);
    CONTROL = fixed_u8(SENDS);
}

void port_serial_send(uint8_t character)
{
    while ((STATE & FULL) != 0) {
    }
    DATA = character;
}
