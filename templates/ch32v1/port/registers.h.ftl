<#include "/portable/head.ftl">
<@head about="Registers, as far as they are used."/>
#ifndef REGISTERS_H
#define REGISTERS_H

#include <stdint.h>

/*
 * CH32V103 and CH32FV2x_V3x Reference Manuals: reset and clock control, watchdog, pins, converter,
 * general-purpose timer, serial, I2C, flash.
 */
<#assign ports = "0x7Du" rises = true timed = true plain = {"PA13": 4, "PA14": 4}>
<#include "/crl/port/registers.ftl">

#endif
