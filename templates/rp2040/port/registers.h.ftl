<#include "/portable/head.ftl">
<@head about="Registers of the part, as far as this firmware uses them."/>
#ifndef REGISTERS_H
#define REGISTERS_H

#include <stdint.h>

/*
 * RP2040 data sheet: 2.1.2 atomic access, 2.3.1 SIO, 2.13 power-on state machine, 2.14 resets,
 * 2.15 clocks, 2.16 crystal, 2.18 PLL, 2.19 pins, 4.2 UART, 4.3 I2C, 4.5 PWM, 4.7 watchdog, 4.9 ADC, 4.10 SSI.
 */
#define REGISTER(address) (*(volatile uint32_t *)(address))

/* Each register is there again, to set the bits that are written as ones, and to clear them. */
#define REGISTER_SET(address) REGISTER((address) + 0x2000u)
#define REGISTER_CLEAR(address) REGISTER((address) + 0x3000u)

/* Blocks that are held in reset until they are wanted. */
#define RESETS_RESET 0x4000C000u
#define RESETS_RESET_DONE REGISTER(0x4000C008u)
#define RESETS_ADC (1u << 0)
#define RESETS_I2C0 (1u << 3)
#define RESETS_IO_BANK0 (1u << 5)
#define RESETS_PADS_BANK0 (1u << 8)
#define RESETS_PLL_SYS (1u << 12)
#define RESETS_PWM (1u << 14)
#define RESETS_UART0 (1u << 22)

/* Takes blocks out of reset, and waits until they answer. */
void block_start(uint32_t blocks);

/* What the watchdog resets: all but the two oscillators. */
#define PSM_WDSEL REGISTER(0x40010008u)
#define PSM_WDSEL_ALL 0x0001FFFCu

#define CLOCKS_CLK_REF_CTRL REGISTER(0x40008030u)
#define CLOCKS_CLK_REF_CTRL_XOSC 2u
#define CLOCKS_CLK_SYS_CTRL REGISTER(0x4000803Cu)
#define CLOCKS_CLK_SYS_CTRL_PLL 1u
#define CLOCKS_CLK_SYS_DIV REGISTER(0x40008040u)
#define CLOCKS_CLK_PERI_CTRL REGISTER(0x40008048u)
#define CLOCKS_CLK_ADC_CTRL REGISTER(0x40008060u)
#define CLOCKS_CLK_ADC_CTRL_XOSC (3u << 5)
#define CLOCKS_CLK_ADC_DIV REGISTER(0x40008064u)
#define CLOCKS_ENABLE (1u << 11)

/* A crystal of 12 MHz; the count of the start-up stays as it is after a reset, at 4 ms. */
#define XOSC_CTRL REGISTER(0x40024000u)
#define XOSC_CTRL_ON 0x00FABAA0u
#define XOSC_STATUS REGISTER(0x40024004u)
#define XOSC_STATUS_STABLE (1u << 31)

/* 12 MHz * 120 / 6 / 5 = 48 MHz. */
#define PLL_CS REGISTER(0x40028000u)
#define PLL_CS_LOCK (1u << 31)
#define PLL_PWR 0x40028004u
#define PLL_PWR_OFF 0x21u
#define PLL_PWR_DIVIDER_OFF 0x08u
#define PLL_FBDIV REGISTER(0x40028008u)
#define PLL_PRIM REGISTER(0x4002800Cu)
#define PLL_PRIM_30 (6u << 16 | 5u << 12)

/* Which block has a pin, and what its pad does. */
#define IO_CTRL(pin) REGISTER(0x40014004u + ((uint32_t)(pin) << 3))
#define IO_UART 2u
#define IO_I2C 3u
#define IO_PWM 4u
#define IO_SIO 5u
#define IO_NONE 31u
#define PADS_GPIO(pin) REGISTER(0x4001C004u + ((uint32_t)(pin) << 2))
/* 4 mA, input on, with its hysteresis; no pull-up, no pull-down. */
#define PADS_PLAIN 0x52u
#define PADS_PULL_UP 0x08u
/* Neither input nor output. */
#define PADS_ANALOG 0x80u

/* Single-cycle I/O: a bit for each pin. */
#define SIO_GPIO_IN REGISTER(0xD0000004u)
#define SIO_GPIO_OUT_SET REGISTER(0xD0000014u)
#define SIO_GPIO_OUT_CLR REGISTER(0xD0000018u)
#define SIO_GPIO_OUT_XOR REGISTER(0xD000001Cu)
#define SIO_GPIO_OE_SET REGISTER(0xD0000024u)
#define SIO_GPIO_OE_CLR REGISTER(0xD0000028u)

/* I2C0. */
#define IC_CON REGISTER(0x40044000u)
/* Controller only, Fast-mode's counts, RESTART; TX_EMPTY comes when a byte has really been sent. */
#define IC_CON_CONTROLLER 0x0165u
#define IC_TAR REGISTER(0x40044004u)
#define IC_DATA_CMD REGISTER(0x40044010u)
#define IC_DATA_CMD_READ (1u << 8)
#define IC_DATA_CMD_STOP (1u << 9)
#define IC_DATA_CMD_RESTART (1u << 10)
#define IC_FS_SCL_HCNT REGISTER(0x4004401Cu)
#define IC_FS_SCL_LCNT REGISTER(0x40044020u)
#define IC_INTR_STAT REGISTER(0x4004402Cu)
#define IC_INTR_MASK REGISTER(0x40044030u)
#define IC_RAW_INTR_STAT REGISTER(0x40044034u)
#define IC_INTR_RX_FULL (1u << 2)
#define IC_INTR_TX_EMPTY (1u << 4)
#define IC_INTR_TX_ABRT (1u << 6)
#define IC_INTR_STOP_DET (1u << 9)
#define IC_CLR_INTR REGISTER(0x40044040u)
#define IC_ENABLE REGISTER(0x4004406Cu)
#define IC_SDA_HOLD REGISTER(0x4004407Cu)
#define IC_FS_SPKLEN REGISTER(0x400440A0u)

/* UART0. */
#define UARTDR REGISTER(0x40034000u)
#define UARTFR REGISTER(0x40034018u)
#define UARTFR_TXFF (1u << 5)
#define UARTIBRD REGISTER(0x40034024u)
#define UARTFBRD REGISTER(0x40034028u)
#define UARTLCR_H REGISTER(0x4003402Cu)
/* Eight bits, with the FIFO. */
#define UARTLCR_H_8_BITS 0x70u
#define UARTCR REGISTER(0x40034030u)
#define UARTCR_SENDS 0x0101u

/* One of the eight PWM slices: two pins, and the two that are 16 above, belong to each. */
#define PWM_SLICE(pin, offset) REGISTER(0x40050000u + (((uint32_t)(pin) >> 1) & 7u) * 0x14u + (offset))
#define PWM_CSR(pin) PWM_SLICE(pin, 0x00u)
#define PWM_CSR_EN 1u
#define PWM_DIV(pin) PWM_SLICE(pin, 0x04u)
#define PWM_CC(pin) PWM_SLICE(pin, 0x0Cu)
#define PWM_TOP(pin) PWM_SLICE(pin, 0x10u)

#define WATCHDOG_CTRL 0x40058000u
#define WATCHDOG_CTRL_ENABLE (1u << 30)
#define WATCHDOG_LOAD REGISTER(0x40058004u)
#define WATCHDOG_LOAD_MOST 0x00FFFFFFu
#define WATCHDOG_TICK REGISTER(0x4005802Cu)
/* A tick for twelve cycles of the crystal. */
#define WATCHDOG_TICK_1_US (1u << 9 | 12u)

#define ADC_CS REGISTER(0x4004C000u)
#define ADC_CS_EN 0x001u
#define ADC_CS_START_ONCE 0x004u
#define ADC_CS_READY 0x100u
#define ADC_CS_AINSEL_PLACE 12
#define ADC_FCS REGISTER(0x4004C008u)
#define ADC_FCS_EN 0x001u
#define ADC_FCS_EMPTY 0x100u
#define ADC_FIFO REGISTER(0x4004C00Cu)

/* The interface to the flash chip. */
#define SSI_CTRLR0 REGISTER(0x18000000u)
#define SSI_CTRLR0_DFS_32_PLACE 16
/* 32 bits in after the command and the address that go out: see boot.c. */
#define SSI_CTRLR0_READS 0x001F0300u
#define SSI_SSIENR REGISTER(0x18000008u)
#define SSI_SR REGISTER(0x18000028u)
#define SSI_SR_BUSY 0x01u
#define SSI_SR_TFE 0x04u
#define SSI_DR0 REGISTER(0x18000060u)

/* Commands that every serial flash knows. */
#define FLASH_PROGRAM 0x02u
#define FLASH_READ_STATUS 0x05u
#define FLASH_STATUS_BUSY 0x01u
#define FLASH_WRITE_ENABLE 0x06u
#define FLASH_ERASE_SECTOR 0x20u

#endif
