<#include "/portable/head.ftl">
<@head about="Sends characters."/>
#include "port.h"
<#if t.guard == "yes">

#include <avr/interrupt.h>
</#if>

<#if t.kind == "hardware">
<#assign s = family.serialPort.get().registers status = s.empty?keep_before(".") empty = s.empty?keep_after(".") control = s.transmit?keep_before(".") transmit = s.transmit?keep_after(".")>
void port_serial_begin(void)
{
    ${s.baud_high} = fixed_u8((uint8_t)(SERIAL_DIVIDER >> 8));
    ${s.baud_low} = fixed_u8((uint8_t)SERIAL_DIVIDER);
    ${status} = fixed_u8(1 << ${s.double_speed});
    ${control} = fixed_u8(1 << ${transmit});
}

void port_serial_send(uint8_t character)
{
    /* The sender takes the next character after ten bits at most. */
    while ((${status} & (1 << ${empty})) == 0) {
    }
    ${s.data} = character;
<#if t.flush == "yes">
    /* Deep sleep would stop the sender in the middle of a character. */
    while ((${status} & (1 << ${empty?replace("UDRE", "TXC")})) == 0) {
    }
    ${status} = (1 << ${empty?replace("UDRE", "TXC")}) | (1 << ${s.double_speed});
</#if>
}
<#else>
void port_serial_begin(void)
{
    /* The line rests high. */
    PORT${pin.transmit.port} |= PORT_BIT(${pin.transmit.bit});
    DDR${pin.transmit.port} |= PORT_BIT(${pin.transmit.bit});
}

/*
 * A start bit, eight data bits, the lowest first, and a stop bit. Both ways
 * through the loop take the same time: 9 clocks, and 3 for each turn of the delay.
 */
void port_serial_send(uint8_t character)
{
    uint8_t bits = 10;
    uint8_t turns;
    uint8_t inverted = (uint8_t)~character;

<#if t.guard == "yes">
    cli();
</#if>
    __asm__ volatile(
        "sec\n"
        "1: brcc 2f\n\t"
        "cbi %[port], %[bit]\n\t"
        "rjmp 3f\n"
        "2: sbi %[port], %[bit]\n\t"
        "nop\n"
        "3: mov %[turns], %[loops]\n"
        "4: dec %[turns]\n\t"
        "brne 4b\n\t"
        "lsr %[inverted]\n\t"
        "dec %[bits]\n\t"
        "brne 1b"
        : [bits] "+d"(bits), [turns] "=&r"(turns), [inverted] "+r"(inverted)
        : [port] "I"(_SFR_IO_ADDR(PORT${pin.transmit.port})), [bit] "I"(${pin.transmit.bit}),
          [loops] "r"(fixed_u8(SERIAL_BIT_LOOPS))
        : "cc");
<#if t.guard == "yes">
    sei();
</#if>
}
</#if>
