<#-- What only the LPC802 has; the LPC804 is alike. -->
/*
 * User manual UM11045 (LPC802): SYSCON, switch matrix, IOCON, GPIO, USART, I2C, CTIMER, WWDT, ADC, and the routine
 * in ROM that writes the flash. Addresses and bits as in a public register description.
 */
#define SYSCON_SYSAHBCLKDIV REGISTER(0x40048058u)
#define SYSCON_ADCCLKDIV REGISTER(0x40048068u)
#define SYSCON_LPOSCCLKEN REGISTER(0x4004807Cu)
#define SYSCON_LPOSCCLKEN_WDT 0x01u
#define SYSCON_ON_CTIMER0 (1u << 25)
#define SYSCON_PDRUNCFG_ADC (1u << 4)
#define SYSCON_PDRUNCFG_LPOSC (1u << 6)
/* GPIO, switch matrix, IOCON. */
#define SYSCON_ON_PINS 0x000400C0u

#define SWM_SWCLK (1u << 4)
#define SWM_SWDIO (1u << 5)
#define SWM_RESET (1u << 6)
/* Function of input 0 of the converter; the others follow. */
#define SWM_ADC_0 (0x80u + 10u)

#define PIN_COUNT 18
#define PIN_PLACES 17, 11, 6, 5, 4, 3, 16, 15, 14, 13, 8, 7, 2, 1, 18, 10, 9, 0

#define ROM_ENTRY "0x0F001FF1"

/* The counter and timer, as far as one tone needs it. */
#define CTIMER_TCR REGISTER(0x40038004u)
#define CTIMER_TCR_RESET 0x02u
#define CTIMER_TCR_RUNS 0x01u
#define CTIMER_MCR REGISTER(0x40038014u)
#define CTIMER_MCR_MR0R 0x02u
#define CTIMER_MR0 REGISTER(0x40038018u)
#define CTIMER_EMR REGISTER(0x4003803Cu)
#define CTIMER_EMR_TOGGLES_0 0x30u

<#include "/lpc8/port/selected.ftl">
/* The converter's own clock, 12 MHz, which it divides. */
static inline void adc_clock(void)
{
    SYSCON_ADCCLKDIV = 1u;
}

<#include "/lpc8/port/adc.ftl">
