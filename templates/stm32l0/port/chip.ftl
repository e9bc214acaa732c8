<#-- Where the blocks of an STM32L0 are, and what only it has. -->
/*
 * Reference manual RM0377 Rev 10 (STM32L0x1), RM0376 Rev 7 (L0x2), RM0367 Rev 7 (L0x3) and RM0451
 * Rev 4 (L0x0): 2.2 addresses, 3.7 flash and EEPROM, 6.4 power, 7.3 RCC, 9.4 GPIO, 14.12 ADC,
 * 17.4 timers, 21.4 IWDG, 23.7 I2C, 24.8 USART (section numbers of RM0377).
 */
#define GPIO_START 0x50000000u
#define USART_START 0x40004400u
#define TIM_START 0x40000000u

#define RCC_CR REGISTER(0x40021000u)
#define RCC_CR_HSION 0x01u
#define RCC_CR_HSIRDY 0x04u
#define RCC_CR_PLLON (1u << 24)
#define RCC_ICSCR REGISTER(0x40021004u)
#define RCC_ICSCR_MSIRANGE (7u << 13)
#define RCC_CFGR REGISTER(0x4002100Cu)
#define RCC_CFGR_SW_PLL 0x03u
#define RCC_PORTS REGISTER(0x4002102Cu)
/* Ports A to <#if family.pins["PE0"]??>E<#else>C</#if> and H. */
#define RCC_PORTS_ON 0x<#if family.pins["PE0"]??>9F<#else>87</#if>u
#define RCC_ADC REGISTER(0x40021034u)
#define RCC_ADC_ON (1u << 9)
#define RCC_APB1ENR REGISTER(0x40021038u)
#define RCC_APB1ENR_PWREN (1u << 28)
#define RCC_I2C RCC_APB1ENR
#define RCC_I2C_ON (1u << 21)
#define RCC_USART RCC_APB1ENR
#define RCC_USART_ON (1u << 17)
#define RCC_TIM RCC_APB1ENR
#define RCC_TIM_ON (1u << 0)

#define PWR_CR REGISTER(0x40007000u)
/* Core voltage range 1, for more than 16 MHz. */
#define PWR_CR_VOS_1 (1u << 11)
#define PWR_CSR REGISTER(0x40007004u)
#define PWR_CSR_VOSF 0x10u

#define FLASH_ACR REGISTER(0x40022000u)
/* One wait state: for more than 8 MHz in core voltage range 2, for more than 16 MHz in range 1. */
#define FLASH_ACR_WAIT 0x01u
#define FLASH_PECR REGISTER(0x40022004u)
#define FLASH_PECR_PELOCK 0x01u
#define FLASH_PEKEYR REGISTER(0x4002200Cu)
#define FLASH_SR REGISTER(0x40022018u)
#define FLASH_SR_BSY 0x01u

/* ADRDY. */
#define ADC_ISR_READY 0x01u
/* Of its own clock, the internal 16 MHz, a quarter. */
#define ADC_CCR REGISTER(0x40012708u)
#define ADC_CCR_QUARTER (2u << 18)
