<#include "/portable/head.ftl">
<@head about="Registers, as far as they are used."/>
#ifndef REGISTERS_H
#define REGISTERS_H

#include <stdint.h>

/*
 * CH32V003 Reference Manual: 3 (reset and clock control), 4 (watchdog), 7 (pins), 9 (converter),
 * 11 (timer), 12 (serial), 13 (I2C), 16 (flash).
 */
<#assign ports = "0x35u" rises = false timed = false oscillator = false plain = {"PD1": 4}>
<#include "/crl/port/registers.ftl">

#endif
