/*
 * RM0091 Rev 9 and RM0360 Rev 5, chapters "Power control" (Stop mode), "Reset and
 * clock control", "Extended interrupt and event controller" and "Real-time clock".
 */
<#assign layout = "old">
#define RTC_BUS RCC_TIM
#define RTC_BUS_ON (1u << 28)
#define RTC_SELECT REGISTER(0x40021020u)
#define RTC_SELECT_LSI (1u << 15 | 2u << 8)
#define RTC_LSI REGISTER(0x40021024u)
#define POWER_CONTROL REGISTER(0x40007000u)
/* Access to the RTC, and the regulator at low power in Stop. */
#define POWER_STOP 0x101u
#define POWER_FORGET_WAKE 0x04u
<#macro wakes></#macro>
