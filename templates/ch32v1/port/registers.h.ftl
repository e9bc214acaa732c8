<#include "/portable/head.ftl">
<@head about="Registers, as far as they are used."/>
#ifndef REGISTERS_H
#define REGISTERS_H

#include <stdint.h>

/*
 * CH32V103 and CH32FV2x_V3x Reference Manuals: reset and clock control, watchdog, pins, converter,
 * general-purpose timer, serial, I2C, flash.
 */
<#assign ports = "0x7Du" rises = true timed = true oscillator = true plain = {"PA13": 4, "PA14": 4}>
<#-- Pads that share a pin with one of the debugger's: CH32V203 data sheet, table 3-1. -->
<#if title?starts_with("CH32V203F")><#assign plain = plain + {"PB6": 4, "PB7": 4}></#if>
<#if title?starts_with("CH32V203G8")><#assign plain = plain + {"PB5": 4, "PA12": 4}></#if>
<#include "/crl/port/registers.ftl">

#endif
