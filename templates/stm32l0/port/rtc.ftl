/*
 * RM0377 Rev 10 and the manuals of the other STM32L0, chapters "Power control" (Stop mode), "Reset and
 * clock control", "Extended interrupt and event controller" and "Real-time clock".
 */
<#assign layout = "old">
#define RTC_BUS RCC_APB1ENR
#define RTC_BUS_ON RCC_APB1ENR_PWREN
#define RTC_SELECT REGISTER(0x40021050u)
#define RTC_SELECT_LSI (1u << 18 | 2u << 16)
#define RTC_LSI REGISTER(0x40021050u)
#define POWER_CONTROL REGISTER(0x40007000u)
/* Access to the RTC, the regulator at low power in Stop, and the reference off without a wait for it. */
#define POWER_STOP 0x701u
#define POWER_FORGET_WAKE 0x04u
<#macro wakes>
<#if t.clock != "no">
    /* After Stop the clock is the internal 16 MHz, divided as before. */
    RCC_CFGR |= RCC_CFGR_STOPWUCK;
</#if>
</#macro>
<#if t.clock != "no">
#define RCC_CFGR_STOPWUCK (1u << 15)
</#if>
