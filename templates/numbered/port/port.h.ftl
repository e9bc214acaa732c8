<#include "/portable/head.ftl">
<@head about="Pins and peripherals, as the portable part sees them."/>
#ifndef PORT_H
#define PORT_H

#include "../src/config.h"
#include "pins.h"
<#if tone??>
#include "tone.h"
</#if>

/*
 * The seam between the portable part and the part at hand. What is one or two
 * calls is inline here; the rest is in the files beside this one. To move to
 * another part, write these functions again.
 */

<#macro output role active>
static inline void port_${role}(bool on)
{
    pin_drive(fixed_u8(PIN_${role?upper_case}), <#if active == "high">on<#else>!on</#if>);
}

</#macro>
/* Makes the part ready: clock, watchdog, pins; outputs driven and off. */
void port_begin(void);

<#if pin.lamp??>
/* The lamp, on ${pin.lamp.name}. */
<@output "lamp" has.outputs.lamp_on/>
<#if has.outputs.lamp == "blink">
static inline void port_lamp_toggle(void)
{
    pin_toggle(fixed_u8(PIN_LAMP));
}

</#if>
</#if>
<#if pin.relay??>
/* The relay's driver, on ${pin.relay.name}. */
<@output "relay" has.outputs.relay_on/>
</#if>
<#if pin.sounder??>
<#if tone??>
/* The sounder, on ${pin.sounder.name}, to which ${tone.timer.name} gives ${frequency} Hz: tone.h. */

<#else>
/* The sounder, on ${pin.sounder.name}; it makes its own tone. */
<@output "sounder" "high"/>
</#if>
</#if>
<#if pin.mute??>
/* The mute button, from ${pin.mute.name} to ground. */
static inline bool port_mute_pressed(void)
{
    return !pin_is_high(fixed_u8(PIN_MUTE));
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
