<#-- Where the blocks of a SAM D21 are, and what only it has. -->
/*
 * SAM D21 data sheet (DS40001882), "PM", "GCLK", "SYSCTRL", "WDT", "NVMCTRL", "PORT", "SERCOM
 * USART", "SERCOM I2C", "TC" and "ADC"; numbers of clocks: "GCLK", register CLKCTRL.
 */
#define I2C_START 0x42001400u
#define PM_APBCMASK_I2C (1u << 5)
#define GCLK_I2C 23u
#define USART_START 0x42000800u
#define PM_APBCMASK_USART (1u << 2)
#define GCLK_USART 20u
#define TC_START 0x42002C00u
#define PM_APBCMASK_TC (1u << 11)
#define GCLK_TC 27u
#define ADC_START 0x42004000u
#define PM_APBCMASK_ADC (1u << 16)
#define GCLK_ADC 30u
#define GCLK_WDT 3u
