<#-- What only the LPC84x has. -->
/*
 * User manual UM11029 Rev. 1.0 (LPC84x): SYSCON, switch matrix, IOCON, GPIO, USART, I2C, SCT, WWDT, ADC, and 5.6
 * for the routine that writes the flash. Held against the maker's register description.
 */
#define SYSCON_SYSPLLCTRL REGISTER(0x40048008u)
#define SYSCON_SYSPLLSTAT REGISTER(0x4004800Cu)
#define SYSCON_WDTOSCCTRL REGISTER(0x40048024u)
#define SYSCON_WDTOSCCTRL_300_KHZ 0x20u
/* MAINCLKPLLSEL and MAINCLKPLLUEN. */
#define MAIN_CLOCK_SELECT REGISTER(0x40048048u)
#define MAIN_CLOCK_PLL 1u
#define MAIN_CLOCK_UPDATE REGISTER(0x4004804Cu)
#define SYSCON_SYSAHBCLKDIV REGISTER(0x40048058u)
#define SYSCON_ADCCLKDIV REGISTER(0x40048068u)
#define SYSCON_SCTCLKSEL REGISTER(0x4004806Cu)
#define SYSCON_SCTCLKSEL_MAIN 1u
#define SYSCON_SCTCLKDIV REGISTER(0x40048070u)
#define SYSCON_PDRUNCFG_ADC (1u << 4)
#define SYSCON_PDRUNCFG_WDTOSC (1u << 6)
#define SYSCON_PDRUNCFG_SYSPLL (1u << 7)
/* Both GPIO ports, switch matrix, IOCON. */
#define SYSCON_ON_PINS 0x001400C0u

#define SWM_SWCLK (1u << 5)
#define SWM_SWDIO (1u << 6)
#define SWM_RESET (1u << 9)
/* Function of input 0 of the converter; the others follow. */
#define SWM_ADC_0 (0x80u + 14u)

#define PIN_COUNT 54
#define PIN_PLACES \
    17, 11, 6, 5, 4, 3, 16, 15, 14, 13, 8, 7, 2, 1, 18, 10, 9, 0, 30, 29, 28, 27, 26, 25, 24, 23, 22, \
    21, 20, 50, 51, 35, 36, 37, 38, 41, 42, 43, 46, 49, 31, 32, 55, 54, 33, 34, 39, 40, 44, 45, 47, 48, 52, 53
#define PIN_PAIR 11u

#define ROM_ENTRY "0x0F001FF1"

<#include "/lpc8/port/selected.ftl">
static inline void tone_clock(void)
{
    SYSCON_SCTCLKSEL = SYSCON_SCTCLKSEL_MAIN;
    SYSCON_SCTCLKDIV = SYSCON_SYSAHBCLKDIV;
}

/* The converter's clock is that of the core, but this one has to be on. */
static inline void adc_clock(void)
{
    SYSCON_ADCCLKDIV = 1u;
}

<#include "/lpc8/port/sct.ftl">
<#include "/lpc8/port/adc.ftl">
