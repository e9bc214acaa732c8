/*
 * RM0490 Rev 4, chapters "Power control" (Stop mode), "Reset and
 * clock control", "Extended interrupt and event controller" and "Real-time clock".
 */
<#assign layout = "new">
#define RTC_BUS RCC_I2C
/* Power and the RTC. */
#define RTC_BUS_ON (1u << 28 | 1u << 10)
#define RTC_SELECT REGISTER(0x4002105Cu)
#define RTC_SELECT_LSI (1u << 15 | 2u << 8)
#define RTC_LSI REGISTER(0x40021060u)
#define POWER_CONTROL REGISTER(0x40007000u)
/* The flash off in Stop; there is no lock on access to the RTC but its own. */
#define POWER_STOP 0x08u
<#macro wakes></#macro>
