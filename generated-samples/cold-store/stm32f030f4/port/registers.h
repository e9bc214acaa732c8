/* SPDX-License-Identifier: 0BSD */
/*
 * Registers of the part, as far as this firmware uses them.
 *
 * cold-store guard, for STM32F030F4. Written by ullage from a loop file: to change
 * a number, change it there and emit again.
 */
#ifndef REGISTERS_H
#define REGISTERS_H

#include <stdint.h>

#define REGISTER(address) (*(volatile uint32_t *)(address))

/*
 * Reference manual RM0091 Rev 9 (STM32F0x1, F0x2, F0x8) and RM0360 Rev 5 (STM32F030, F070):
 * 2.2.2 addresses, 3.5 flash, 6.4 RCC, 8.4 GPIO, 13.12 ADC, 18.4 timers, 23.4 IWDG,
 * 26.7 I2C, 27.8 USART (section numbers of RM0091).
 */
#define GPIO_START 0x48000000u
#define USART_START 0x40013800u
#define TIM_START 0x40000400u

#define RCC_CR REGISTER(0x40021000u)
#define RCC_CR_PLLON (1u << 24)
#define RCC_CFGR REGISTER(0x40021004u)
#define RCC_CFGR_SW_PLL 0x02u
#define RCC_PORTS REGISTER(0x40021014u)
/* Ports A to D and F, and what is on after a reset: SRAM and the flash interface. */
#define RCC_PORTS_ON 0x005E0014u
#define RCC_ADC REGISTER(0x40021018u)
#define RCC_ADC_ON (1u << 9)
#define RCC_USART REGISTER(0x40021018u)
#define RCC_USART_ON (1u << 14)
#define RCC_TIM REGISTER(0x4002101Cu)
#define RCC_TIM_ON (1u << 1)
#define RCC_I2C REGISTER(0x4002101Cu)
#define RCC_I2C_ON (1u << 21)

#define FLASH_ACR REGISTER(0x40022000u)
/* One wait state, for more than 24 MHz, and the prefetch buffer. */
#define FLASH_ACR_WAIT 0x11u
#define FLASH_KEYR REGISTER(0x40022004u)
#define FLASH_SR REGISTER(0x4002200Cu)
#define FLASH_SR_BSY 0x01u
#define FLASH_CR REGISTER(0x40022010u)
#define FLASH_CR_PG 0x01u
#define FLASH_CR_PER 0x02u
#define FLASH_CR_STRT 0x40u
#define FLASH_CR_LOCK 0x80u
#define FLASH_AR REGISTER(0x40022014u)

/* ADRDY. */
#define ADC_ISR_READY 0x01u

/* General-purpose I/O, registers of the port that a pin belongs to. */
#define GPIO_REGISTER(pin, offset) REGISTER(GPIO_START + (((uint32_t)(pin) >> 4) << 10) + (offset))
#define GPIO_MODER(pin) GPIO_REGISTER(pin, 0x00u)
#define GPIO_OTYPER(pin) GPIO_REGISTER(pin, 0x04u)
#define GPIO_PUPDR(pin) GPIO_REGISTER(pin, 0x0Cu)
#define GPIO_IDR(pin) GPIO_REGISTER(pin, 0x10u)
#define GPIO_ODR(pin) GPIO_REGISTER(pin, 0x14u)
#define GPIO_BSRR(pin) GPIO_REGISTER(pin, 0x18u)
#define GPIO_AFR(pin) GPIO_REGISTER(pin, 0x20u + (((uint32_t)(pin) & 8u) >> 1))

/* I2C1. */
#define I2C_CR1 REGISTER(0x40005400u)
#define I2C_CR1_PE 0x01u
/* All events that a controller can have: TXIE, RXIE, NACKIE, STOPIE, TCIE, ERRIE. */
#define I2C_CR1_EVENTS 0xF6u
#define I2C_CR2 REGISTER(0x40005404u)
#define I2C_CR2_RD_WRN_PLACE 10
#define I2C_CR2_START (1u << 13)
#define I2C_CR2_STOP (1u << 14)
#define I2C_CR2_NBYTES_PLACE 16
#define I2C_CR2_RELOAD (1u << 24)
#define I2C_CR2_AUTOEND (1u << 25)
#define I2C_TIMINGR REGISTER(0x40005410u)
#define I2C_ISR REGISTER(0x40005418u)
#define I2C_ISR_TXIS (1u << 1)
#define I2C_ISR_RXNE (1u << 2)
#define I2C_ISR_NACKF (1u << 4)
#define I2C_ISR_STOPF (1u << 5)
#define I2C_ISR_TC (1u << 6)
#define I2C_ISR_TCR (1u << 7)
#define I2C_ISR_BERR (1u << 8)
#define I2C_ISR_ARLO (1u << 9)
#define I2C_ICR REGISTER(0x4000541Cu)
#define I2C_RXDR REGISTER(0x40005424u)
#define I2C_TXDR REGISTER(0x40005428u)

/* Interrupt controller: Armv6-M Architecture Reference Manual, B3.4. */
#define NVIC_ISER REGISTER(0xE000E100u)
#define NVIC_I2C1 (1u << 23)

/* The USART1 that reports are sent with. */
#define USART_CR1 REGISTER(USART_START + 0x00u)
#define USART_CR1_UE 0x01u
#define USART_CR1_TE 0x08u
#define USART_BRR REGISTER(USART_START + 0x0Cu)
#define USART_ISR REGISTER(USART_START + 0x1Cu)
#define USART_ISR_TXE 0x80u
#define USART_TDR REGISTER(USART_START + 0x28u)

/* The timer of the sounder. */
#define TIM_CR1 REGISTER(TIM_START + 0x00u)
#define TIM_CR1_CEN 0x01u
#define TIM_EGR REGISTER(TIM_START + 0x14u)
#define TIM_EGR_UG 0x01u
#define TIM_CCMR1 REGISTER(TIM_START + 0x18u)
#define TIM_CCMR1_OC1M_TOGGLE 0x30u
#define TIM_CCER REGISTER(TIM_START + 0x20u)
#define TIM_CCER_CC1E 0x01u
#define TIM_PSC REGISTER(TIM_START + 0x28u)
#define TIM_ARR REGISTER(TIM_START + 0x2Cu)

/* Analog-to-digital converter. */
#define ADC_ISR REGISTER(0x40012400u)
#define ADC_ISR_EOC 0x04u
#define ADC_CR REGISTER(0x40012408u)
#define ADC_CR_ADEN 0x01u
#define ADC_CR_ADDIS 0x02u
#define ADC_CR_ADSTART 0x04u
#define ADC_CR_ADVREGEN (1u << 28)
#define ADC_CR_ADCAL (1u << 31)
#define ADC_CFGR1 REGISTER(0x4001240Cu)
#define ADC_CFGR1_10_BITS 0x08u
#define ADC_CFGR2 REGISTER(0x40012410u)
#define ADC_SMPR REGISTER(0x40012414u)
#define ADC_SMPR_LONGEST 0x07u
#define ADC_CHSELR REGISTER(0x40012428u)
#define ADC_DR REGISTER(0x40012440u)

/* Independent watchdog. */
#define IWDG_KR REGISTER(0x40003000u)
#define IWDG_KR_RELOAD 0xAAAAu
#define IWDG_KR_UNLOCK 0x5555u
#define IWDG_KR_START 0xCCCCu
#define IWDG_PR REGISTER(0x40003004u)
#define IWDG_RLR REGISTER(0x40003008u)

#endif
