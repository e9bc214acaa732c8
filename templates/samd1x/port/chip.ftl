<#-- Where the blocks of a SAM D10 and D11 are, and what only it has. -->
/*
 * SAM D10 and D11 data sheet (Atmel-42242 and 42363), "PM", "GCLK", "SYSCTRL", "WDT", "NVMCTRL", "PORT", "SERCOM
 * USART", "SERCOM I2C", "TC" and "ADC"; numbers of clocks: "GCLK", register CLKCTRL.
 */
#define I2C_START 0x42000800u
#define PM_APBCMASK_I2C (1u << 2)
#define GCLK_I2C 14u
#define USART_START 0x42000C00u
#define PM_APBCMASK_USART (1u << 3)
#define GCLK_USART 15u
#define TC_START 0x42001800u
#define PM_APBCMASK_TC (1u << 6)
#define GCLK_TC 18u
#define ADC_START 0x42002000u
#define PM_APBCMASK_ADC (1u << 8)
#define GCLK_ADC 19u
#define GCLK_WDT 3u
