<#-- Where the blocks of an STM32F0 are, and what only it has. -->
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
/* Ports A to D<#if family.pins["PE0"]??>, E</#if> and F, and what is on after a reset: SRAM and the flash interface. */
#define RCC_PORTS_ON 0x00<#if family.pins["PE0"]??>7E<#else>5E</#if>0014u
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
