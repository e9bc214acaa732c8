<#-- What only the LPC82x and LPC83x have. -->
/*
 * User manual UM10800 Rev. 1 (LPC82x; the LPC83x, UM11021, has a part of it): 5.6 SYSCON, 7.5 switch matrix,
 * 8.5 IOCON, 9.5 GPIO, 13.6 USART, 15.6 I2C, 16.6 SCT, 17.6 WWDT, 21.6 ADC, 25.6 routine that writes
 * the flash.
 */
#define SYSCON_SYSPLLCTRL REGISTER(0x40048008u)
#define SYSCON_SYSPLLSTAT REGISTER(0x4004800Cu)
#define SYSCON_WDTOSCCTRL REGISTER(0x40048024u)
#define SYSCON_WDTOSCCTRL_300_KHZ 0x20u
/* MAINCLKSEL and MAINCLKUEN. */
#define MAIN_CLOCK_SELECT REGISTER(0x40048070u)
#define MAIN_CLOCK_PLL 3u
#define MAIN_CLOCK_UPDATE REGISTER(0x40048074u)
#define SYSCON_SYSAHBCLKDIV REGISTER(0x40048078u)
#define SYSCON_UARTCLKDIV REGISTER(0x40048094u)
#define SYSCON_UARTFRGDIV REGISTER(0x400480F0u)
#define SYSCON_UARTFRGMULT REGISTER(0x400480F4u)
#define SYSCON_PDRUNCFG_ADC (1u << 4)
#define SYSCON_PDRUNCFG_WDTOSC (1u << 6)
#define SYSCON_PDRUNCFG_SYSPLL (1u << 7)
/* GPIO, switch matrix, IOCON. */
#define SYSCON_ON_PINS 0x000400C0u

#define SWM_SWCLK (1u << 4)
#define SWM_SWDIO (1u << 5)
#define SWM_RESET (1u << 8)
/* Function of input 0 of the converter; the others follow. */
#define SWM_ADC_0 (0x80u + 13u)

#define PIN_COUNT 29
#define PIN_PLACES \
    17, 11, 6, 5, 4, 3, 16, 15, 14, 13, 8, 7, 2, 1, 18, 10, 9, 0, 30, 29, 28, 27, 26, 25, 24, 23, 22, 21, 20
#define PIN_PAIR 11u

#define ROM_ENTRY "0x1FFF1FF1"

<#include "/lpc8/port/clocks.ftl">
<#include "/lpc8/port/sct.ftl">
<#include "/lpc8/port/adc.ftl">
