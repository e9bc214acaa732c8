<#-- Where the blocks of a SAM D20 are, and what only it has. -->
/*
 * SAM D20 data sheet (DS60001504), "PM", "GCLK", "SYSCTRL", "WDT", "NVMCTRL", "PORT", "SERCOM
 * USART", "SERCOM I2C", "TC" and "ADC"; numbers of clocks: "GCLK", register CLKCTRL.
 */
#define I2C_START 0x42001400u
#define PM_APBCMASK_I2C (1u << 5)
#define GCLK_I2C 16u
#define USART_START 0x42000800u
#define PM_APBCMASK_USART (1u << 2)
#define GCLK_USART 13u
#define TC_START 0x42002C00u
#define PM_APBCMASK_TC (1u << 11)
#define GCLK_TC 20u
#define ADC_START 0x42004000u
#define PM_APBCMASK_ADC (1u << 16)
#define GCLK_ADC 23u
#define GCLK_WDT 1u
