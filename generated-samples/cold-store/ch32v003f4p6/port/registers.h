/* SPDX-License-Identifier: 0BSD */
/*
 * Registers, as far as they are used.
 *
 * cold-store guard, for CH32V003F4P6. Written by ullage from a loop file: to change
 * a number, change it there and emit again.
 */
#ifndef REGISTERS_H
#define REGISTERS_H

#include <stdint.h>

/*
 * CH32V003 Reference Manual: 3 (reset and clock control), 4 (watchdog), 7 (pins), 9 (converter),
 * 11 (timer), 12 (serial), 13 (I2C), 16 (flash).
 */
#define REGISTER(address) (*(volatile uint32_t *)(address))

/* Reset and clock control. */
#define CLOCK_CONTROL REGISTER(0x40021000u)
#define CLOCK_PLL (1u << 24)
#define CLOCK_PLL_READY (1u << 25)
#define CLOCK_CONFIG REGISTER(0x40021004u)
#define CLOCK_FROM_PLL 2u
#define CLOCKS_APB2 REGISTER(0x40021018u)
#define CLOCK_PORTS 0x35u
#define CLOCK_CONVERTER (1u << 9)
#define CLOCK_SERIAL (1u << 14)
#define CLOCKS_APB1 REGISTER(0x4002101Cu)
#define CLOCK_TONE 1u
#define CLOCK_BUS (1u << 21)

/* Independent watchdog. */
#define WATCHDOG_KEY REGISTER(0x40003000u)
#define WATCHDOG_SCALE REGISTER(0x40003004u)
#define WATCHDOG_TIME REGISTER(0x40003008u)

/* GPIO and alternate functions; offsets in words. */
#define GPIO_BASE 0x40010800u
#define GPIO_STEP 0x400u
#define GPIO_IN 2
#define GPIO_OUT 3
#define GPIO_SET 4
#define GPIO_CLEAR 5
#define REMAP REGISTER(0x40010004u)
/* SWJ_CFG, which cannot be read back, PD01_REMAP, and where peripherals are led. */
#define REMAP_WORD (0x0000000u | BUS_REMAP | TONE_REMAP)

/* Analog-to-digital conversion. */
#define CONVERTER_STATUS REGISTER(0x40012400u)
#define CONVERTER_DONE 2u
#define CONVERTER_CONTROL REGISTER(0x40012408u)
#define CONVERTER_ON 1u
#define CONVERTER_CALIBRATES 4u
#define CONVERTER_FORGETS 8u
#define CONVERTER_BY_PROGRAM 0x1E0000u
#define CONVERTER_START (1u << 22)
#define CONVERTER_SAMPLING REGISTER(0x40012410u)
#define CONVERTER_SEQUENCE REGISTER(0x40012434u)
#define CONVERTER_RESULT REGISTER(0x4001244Cu)

/* General-purpose timer. */
#define TONE_CONTROL REGISTER(0x40000000u)
#define TONE_UPDATE REGISTER(0x40000014u)
#define TONE_MODE REGISTER(0x40000018u)
#define TONE_TOGGLES 0x30u
#define TONE_ENABLE REGISTER(0x40000020u)
#define TONE_PRESCALER REGISTER(0x40000028u)
#define TONE_RELOAD REGISTER(0x4000002Cu)

/* Universal synchronous asynchronous receiver transmitter. */
#define SERIAL_STATUS REGISTER(0x40013800u)
#define SERIAL_EMPTY (1u << 7)
#define SERIAL_DATA REGISTER(0x40013804u)
#define SERIAL_RATE REGISTER(0x40013808u)
#define SERIAL_CONTROL REGISTER(0x4001380Cu)
#define SERIAL_ON (1u << 13)
#define SERIAL_SENDS (1u << 3)

/* I2C. */
#define BUS_CONTROL1 REGISTER(0x40005400u)
#define BUS_ON 1u
#define BUS_START (1u << 8)
#define BUS_STOP (1u << 9)
#define BUS_ACKNOWLEDGE (1u << 10)
#define BUS_RESET (1u << 15)
#define BUS_CONTROL2 REGISTER(0x40005404u)
#define BUS_INTERRUPTS (3u << 8)
#define BUS_DATA_INTERRUPTS (1u << 10)
#define BUS_DATA REGISTER(0x40005410u)
#define BUS_STATUS1 REGISTER(0x40005414u)
#define BUS_STARTED 1u
#define BUS_ADDRESSED (1u << 1)
#define BUS_SENT (1u << 2)
#define BUS_ARRIVED (1u << 6)
#define BUS_EMPTY (1u << 7)
#define BUS_TROUBLE (7u << 8)
#define BUS_STATUS2 REGISTER(0x40005418u)
#define BUS_MASTER 1u
#define BUS_CLOCK REGISTER(0x4000541Cu)

/* Flash memory. */
#define FLASH_WAITS REGISTER(0x40022000u)
#define FLASH_KEY REGISTER(0x40022004u)
#define FLASH_STATUS REGISTER(0x4002200Cu)
#define FLASH_BUSY 1u
#define FLASH_CONTROL REGISTER(0x40022010u)
#define FLASH_PROGRAMS 1u
#define FLASH_ERASES 2u
#define FLASH_STARTS (1u << 6)
#define FLASH_LOCKS (1u << 7)
#define FLASH_ADDRESS REGISTER(0x40022014u)

#endif
