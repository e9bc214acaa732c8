/*
 * Stop mode, and the RTC whose alarm ends it by line 17 of EXTI: RM0008 5.3.5 and 5.4 (PWR), 7.3.9 and 7.3.10 (BDCR,
 * CSR), 10.3 (EXTI), 18.3 and 18.4 (RTC), and the CH32V103 and CH32FV2x_V3x reference manuals; all from memory.
 */
#define CLOCKS_BACKUP (3u << 27)
#define CLOCK_BACKUP REGISTER(0x40021020u)
/* The RTC on, by the slow oscillator. */
#define CLOCK_RTC (1u << 15 | 2u << 8)
#define CLOCK_STATUS REGISTER(0x40021024u)
#define CLOCK_LSI 1u
#define CLOCK_LSI_READY 2u
#define POWER_CONTROL REGISTER(0x40007000u)
/* Access to the RTC, and the regulator at low power in Stop. */
#define POWER_STOP 0x101u
#define POWER_FORGET_WAKE 0x04u
#define EVENTS REGISTER(0x40010404u)
#define EVENTS_RISING REGISTER(0x40010408u)
#define EVENT_ALARM (1u << 17)
#define RTC_CRH REGISTER(0x40002800u)
#define RTC_CRH_ALRIE 0x02u
#define RTC_CRL REGISTER(0x40002804u)
#define RTC_CRL_ALRF 0x02u
#define RTC_CRL_CNF 0x10u
#define RTC_CRL_RTOFF 0x20u
#define RTC_PRLH REGISTER(0x40002808u)
#define RTC_PRLL REGISTER(0x4000280Cu)
/* It counts halves of the slow clock: 0 is not to be used. */
#define RTC_PRLL_BY_2 1u
#define RTC_CNTH REGISTER(0x40002818u)
#define RTC_CNTL REGISTER(0x4000281Cu)
#define RTC_ALRH REGISTER(0x40002820u)
#define RTC_ALRL REGISTER(0x40002824u)
<#include find("port/nap_sleep.ftl")>

/* Three of its own clocks at most: 0.1 ms. */
static void nap_settle(void)
{
    uint32_t patience = fixed_u32(BUS_PATIENCE);

    while ((RTC_CRL & RTC_CRL_RTOFF) == 0 && --patience != 0) {
    }
}

static void nap_begin(void)
{
    CLOCKS_APB1 |= CLOCKS_BACKUP;
    POWER_CONTROL |= POWER_STOP;
    CLOCK_STATUS |= CLOCK_LSI;
    /* Within 0.1 ms: data sheets, "Low-speed internal (LSI) RC oscillator". */
    while ((CLOCK_STATUS & CLOCK_LSI_READY) == 0) {
    }
    CLOCK_BACKUP |= CLOCK_RTC;
    nap_settle();
    RTC_CRL |= RTC_CRL_CNF;
    RTC_PRLH = 0;
    RTC_PRLL = RTC_PRLL_BY_2;
    RTC_ALRH = fixed_u32(NAP_TICKS) >> 16;
    RTC_ALRL = fixed_u32(NAP_TICKS) & 0xFFFFu;
    RTC_CRL &= ~RTC_CRL_CNF;
    nap_settle();
    RTC_CRH = RTC_CRH_ALRIE;
    EVENTS = EVENT_ALARM;
    EVENTS_RISING = EVENT_ALARM;
}

static void nap_start(void)
{
    uint32_t patience = fixed_u32(BUS_PATIENCE);

    /* The STOP of the last transaction may still be on its way. */
    while ((CLOCKS_APB1 & CLOCK_BUS) != 0 && (BUS_CONTROL1 & BUS_STOP) != 0 && --patience != 0) {
    }
}

static void nap(void)
{
    RTC_CRL |= RTC_CRL_CNF;
    RTC_CNTH = 0;
    RTC_CNTL = 0;
    RTC_CRL &= ~(RTC_CRL_CNF | RTC_CRL_ALRF);
    nap_settle();
    POWER_CONTROL |= POWER_FORGET_WAKE;
    nap_sleep();
}

static void nap_end(void)
{
<#if (t.clock!"no") == "pll" || (t.clock!"no") == "waits">
    uint32_t patience = fixed_u32(BUS_PATIENCE);

    /* Stop has switched it off. */
    CLOCK_CONTROL |= CLOCK_PLL;
    while ((CLOCK_CONTROL & CLOCK_PLL_READY) == 0 && --patience != 0) {
    }
    CLOCK_CONFIG |= CLOCK_FROM_PLL;
</#if>
}

