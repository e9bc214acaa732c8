<#include find("port/rtc.ftl")>
#define RTC_LSION 1u
#define RTC_LSIRDY 2u
#define RTC_ISR REGISTER(0x4000280Cu)
#define RTC_ISR_ALRAWF 0x001u
#define RTC_ISR_INITF 0x040u
#define RTC_ISR_INIT 0x080u
#define RTC_PRER REGISTER(0x40002810u)
#define RTC_PRER_BY_16 (15u << 16)
#define RTC_WPR REGISTER(0x40002824u)
<#if layout == "new">
#define RTC_CR REGISTER(0x40002818u)
#define RTC_ALRMAR REGISTER(0x40002840u)
#define RTC_SR REGISTER(0x40002850u)
#define RTC_SR_ALRAF 0x01u
#define RTC_SCR REGISTER(0x4000285Cu)
/* The alarm's line is number 19, and needs no choice of an edge. */
#define EXTI_EMR REGISTER(0x40021884u)
#define EXTI_RTC (1u << 19)
<#else>
#define RTC_CR REGISTER(0x40002808u)
#define RTC_ALRMAR REGISTER(0x4000281Cu)
#define RTC_SR RTC_ISR
#define RTC_SR_ALRAF 0x100u
#define EXTI_EMR REGISTER(0x40010404u)
#define EXTI_RTSR REGISTER(0x40010408u)
#define EXTI_RTC (1u << 17)
</#if>
#define RTC_CR_ALARM (1u << 8 | 1u << 12)
/* Whatever the date and the time: once in each second. */
#define RTC_ALRMAR_ANY 0x80808080u
/* Armv6-M Architecture Reference Manual, B3.2.7. */
#define SLEEP_CONTROL REGISTER(0xE000ED10u)
#define SLEEP_DEEP 0x04u

static void nap_wait(uint32_t flag)
{
    uint32_t patience = fixed_u32(BUS_PATIENCE);

    while ((RTC_ISR & flag) == 0 && --patience != 0) {
    }
}

static void nap_begin(void)
{
    RTC_BUS |= RTC_BUS_ON;
    POWER_CONTROL |= POWER_STOP;
    RTC_LSI |= RTC_LSION;
    /* Within 0.2 ms: data sheets, "Low-speed internal RC oscillator". */
    while ((RTC_LSI & RTC_LSIRDY) == 0) {
    }
    RTC_SELECT |= RTC_SELECT_LSI;
<@wakes/>
    /* The RTC goes on through a reset, and may have its alarm on already. */
    RTC_WPR = 0xCAu;
    RTC_WPR = 0x53u;
    RTC_CR = 0;
    nap_wait(RTC_ISR_ALRAWF);
    RTC_ALRMAR = RTC_ALRMAR_ANY;
    RTC_CR = RTC_CR_ALARM;
    EXTI_EMR |= EXTI_RTC;
<#if layout != "new">
    EXTI_RTSR |= EXTI_RTC;
</#if>
}

/* A second of the RTC's calendar is as long as a nap, and begins here. */
static void nap_start(void)
{
    RTC_ISR = RTC_ISR_INIT;
    nap_wait(RTC_ISR_INITF);
    /* The two dividers take two writes. */
    RTC_PRER = fixed_u16(NAP_RELOAD);
    RTC_PRER = RTC_PRER_BY_16 | fixed_u16(NAP_RELOAD);
    RTC_ISR = 0;
<#if layout == "new">
    RTC_SCR = RTC_SR_ALRAF;
</#if>
}

/* An event that is left from before ends a wfe at once, so the alarm's own flag counts. */
static void nap(void)
{
    SLEEP_CONTROL = SLEEP_DEEP;
    do {
<#if layout != "new">
        POWER_CONTROL |= POWER_FORGET_WAKE;
</#if>
        __asm__ volatile("wfe" : : : "memory");
    } while ((RTC_SR & RTC_SR_ALRAF) == 0);
    SLEEP_CONTROL = 0;
<#if layout == "new">
    RTC_SCR = RTC_SR_ALRAF;
<#else>
    RTC_ISR = ~(uint32_t)(RTC_SR_ALRAF | RTC_ISR_INIT);
</#if>
}

<#if (t.clock!"no") == "pll">
#define RCC_CR_PLLRDY (1u << 25)

</#if>
static void nap_end(void)
{
<#if (t.clock!"no") == "pll">
    uint32_t patience = fixed_u32(BUS_PATIENCE);

    /* Stop has switched it off. The bus is not to start before the clock is the one that it counts on. */
    RCC_CR |= RCC_CR_PLLON;
    while ((RCC_CR & RCC_CR_PLLRDY) == 0 && --patience != 0) {
    }
    RCC_CFGR |= RCC_CFGR_SW_PLL;
</#if>
}

