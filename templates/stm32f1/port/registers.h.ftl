<#include "/portable/head.ftl">
<@head about="Registers, as far as they are used."/>
#ifndef REGISTERS_H
#define REGISTERS_H

#include <stdint.h>

/*
 * STM32F101 to F103: reference manual RM0008, 3.3.3 (memory map), 7 (clocks), 9 (pins), 11
 * (converter), 15 (timers), 19 (watchdog), 26 (I2C), 27 (serial); flash: PM0075. STM32F100: RM0041.
 */
<#-- With 100 pins PD0 and PD1 have pins of their own: RM0008 9.4.2, PD01_REMAP. -->
<#assign oscillator = !title?matches("STM32F10.V.*")>
<#assign ports = "0x7Du" rises = true timed = false plain = {"PA13": 4, "PA14": 4, "PA15": 2, "PB3": 2, "PB4": 1}>
<#include "/crl/port/registers.ftl">

#endif
