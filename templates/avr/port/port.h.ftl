<#include "/portable/head.ftl">
<@head about="Pins and peripherals, as the portable part sees them."/>
#ifndef PORT_H
#define PORT_H

#include <avr/io.h>

#include "../src/config.h"

/*
 * The seam between the portable part and the part at hand. What is one or two
 * instructions is inline here; the rest is in the files beside this one. To
 * move to another part, write these functions again.
 */

#define PORT_BIT(number) ((uint8_t)(1u << (number)))

<#function drive role level>
<#local port = "PORT" + pin[role].port mask = "PORT_BIT(" + pin[role].bit + ")">
<#return (level == "high")?then(port + " |= " + mask, port + " &= (uint8_t)~" + mask)>
</#function>
<#macro output role active>
static inline void port_${role}(bool on)
{
    if (on) {
        ${drive(role, active)};
    } else {
        ${drive(role, (active == "high")?then("low", "high"))};
    }
}

</#macro>
/* Makes the pins ready: outputs driven and off, inputs with what pull-up they need. */
void port_begin(void);

<#if pin.lamp??>
/* The lamp, on ${pin.lamp.name}. */
<@output "lamp" has.outputs.lamp_on/>
<#if has.outputs.lamp == "blink">
static inline void port_lamp_toggle(void)
{
<#if has.outputs.lamp_pin == "memory">
    PORT${pin.lamp.port} ^= PORT_BIT(${pin.lamp.bit});
<#else>
    /* Writing a one to an input register toggles the output. */
    PIN${pin.lamp.port} = PORT_BIT(${pin.lamp.bit});
</#if>
}

</#if>
</#if>
<#if pin.relay??>
/* The relay's driver, on ${pin.relay.name}. */
<@output "relay" has.outputs.relay_on/>
</#if>
<#if pin.sounder??>
<#if tone??>
/* The sounder, on ${pin.sounder.name}, which ${tone.timer.name} toggles at ${frequency} Hz. */
static inline void port_sounder(bool on)
{
<#assign toggle = tone.timer.toggle.get().registers timer = tone.timer clock = timer.registers.clock_register>
<#assign mode = timer.mode[toggle.register]!"0">
<#if shared>
    uint8_t mode = fixed_u8(${mode});

    if (on) {
        mode |= ${toggle.bits};
    }
    ${toggle.register} = mode;
<#else>
    uint8_t mode = fixed_u8(${mode}<#if toggle.register == clock> | TONE_CLOCK_SELECT</#if>);

    if (on) {
<#list timer.mode as register, bits>
<#if register != toggle.register && register != clock>
        ${register} = ${bits};
</#if>
</#list>
<#if toggle.register != clock>
        ${clock} = fixed_u8(<#if timer.mode[clock]??>${timer.mode[clock]} | </#if>TONE_CLOCK_SELECT);
</#if>
        ${timer.registers.top} = fixed_u${timer.bits}(TONE_TOP);
<#if toggle.compare??>
        ${toggle.compare} = fixed_u${timer.bits}(TONE_TOP);
</#if>
        mode |= ${toggle.bits};
    }
    ${toggle.register} = mode;
</#if>
}

<#else>
/* The sounder, on ${pin.sounder.name}; it makes its own tone. */
<@output "sounder" "high"/>
</#if>
</#if>
<#if pin.mute??>
/* The mute button, from ${pin.mute.name} to ground. */
static inline bool port_mute_pressed(void)
{
    return (PIN${pin.mute.port} & PORT_BIT(${pin.mute.bit})) == 0;
}

</#if>
<#if pin.knob??>
/* The knob's voltage on ${pin.knob.name}: 0 to 1023 for ground to supply. */
uint16_t port_knob(void);

</#if>
<#if has.serial??>
/* Makes the sender ready: ${baud} baud, eight bits, no parity, one stop bit. */
void port_serial_begin(void);

/* Sends one character on ${pin.transmit.name}; waits while the one before it is still being sent. */
void port_serial_send(uint8_t character);

</#if>
#endif
