<#include "/portable/head.ftl">
<@head about="Registers of the part, as far as this firmware uses them."/>
#ifndef REGISTERS_H
#define REGISTERS_H

#include <stdint.h>

#define REGISTER(address) (*(volatile uint32_t *)(address))

<#include find("port/chip.ftl")>

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

/* The ${family.serialPort.get().name} that reports are sent with. */
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
