<#-- Where the blocks of an STM32C0 are, and what only it has. -->
/*
 * Reference manual RM0490 Rev 4 (STM32C0x1): 2.2 addresses, 3.7 flash, 5.4 RCC, 7.4 GPIO,
 * 14.12 ADC, 17.4 timers, 21.4 IWDG, 23.9 I2C, 24.8 USART.
 */
#define GPIO_START 0x50000000u
#define USART_START 0x40004400u
#define TIM_START 0x40000400u

#define RCC_CR REGISTER(0x40021000u)
#define RCC_CR_HSIDIV (7u << 11)
#define RCC_PORTS REGISTER(0x40021034u)
/* Ports A to C and F. */
#define RCC_PORTS_ON 0x27u
#define RCC_I2C REGISTER(0x4002103Cu)
#define RCC_I2C_ON (1u << 21)
#define RCC_USART REGISTER(0x4002103Cu)
#define RCC_USART_ON (1u << 17)
#define RCC_TIM REGISTER(0x4002103Cu)
#define RCC_TIM_ON (1u << 1)
#define RCC_ADC REGISTER(0x40021040u)
#define RCC_ADC_ON (1u << 20)

#define FLASH_ACR REGISTER(0x40022000u)
/* One wait state, for more than 24 MHz. */
#define FLASH_ACR_WAIT 0x01u
#define FLASH_KEYR REGISTER(0x40022008u)
#define FLASH_SR REGISTER(0x40022010u)
/* Flags of errors, which writing them clears. */
#define FLASH_SR_ERRORS 0x0000C3FAu
/* BSY1 and CFGBSY. */
#define FLASH_SR_BUSY 0x00050000u
#define FLASH_CR REGISTER(0x40022014u)
#define FLASH_CR_PG 0x01u
#define FLASH_CR_PER 0x02u
#define FLASH_CR_PNB_PLACE 3
#define FLASH_CR_STRT (1u << 16)
#define FLASH_CR_LOCK (1u << 31)

/* ADRDY and CCRDY. */
#define ADC_ISR_READY 0x2001u
