<#include "/portable/head.ftl">
<@head about="Registers, as far as they are used."/>
#ifndef REGISTERS_H
#define REGISTERS_H

#include <stdint.h>

/*
 * GD32VF103 User Manual: 2 (flash), 5 (clocks), 7 (pins), 11 (converter), 13.2 (watchdog), 15.2
 * (timers), 16 (serial), 17 (I2C). The blocks are those of RM0008 under other names.
 */
<#-- With 100 pins PD0 and PD1 have pins of their own: user manual, AFIO_PCF0, PD01_REMAP. -->
<#assign oscillator = !title?matches("GD32VF103V.*")>
<#assign ports = "0x7Du" rises = true timed = true plain = {"PA13": 4, "PA14": 4, "PA15": 4, "PB3": 4, "PB4": 1}>
<#include "/crl/port/registers.ftl">

#endif
