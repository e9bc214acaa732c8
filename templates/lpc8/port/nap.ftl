/*
 * Power-down, and the self wake-up timer that ends it: UM10601 (LPC81x) 4.6.29 (STARTERP1) and what follows there
 * (PDSLEEPCFG, PDAWAKECFG), 5.6 and 5.7.6 (PMU, Power-down), 13 (WKT); the other parts of the series alike, which
 * is from the maker's register descriptions, and else from memory.
 */
#define SYSCON_ON_WKT (1u << 9)
#define SYSCON_STARTERP1 REGISTER(0x40048214u)
#define SYSCON_STARTERP1_WKT (1u << 15)
/* What has power after Power-down, bits as in PDRUNCFG; those of PDSLEEPCFG say what has it meanwhile. */
#define SYSCON_PDAWAKECFG REGISTER(0x40048234u)
#define PMU_PCON REGISTER(0x40020000u)
#define PMU_PCON_POWER_DOWN 2u
#define WKT_CTRL REGISTER(0x40008000u)
#define WKT_CTRL_SLOW 1u
#define WKT_CTRL_ALARM 2u
#define WKT_CTRL_CLEAR 4u
#define WKT_COUNT REGISTER(0x4000800Cu)
/* Armv6-M Architecture Reference Manual, B3.2.7 and B3.4. */
#define SLEEP_CONTROL REGISTER(0xE000ED10u)
#define SLEEP_DEEP 0x04u
#define NVIC_ICPR REGISTER(0xE000E280u)
#define NVIC_WKT (1u << 15)
<#include find("port/nap_clock.ftl")>

static void nap_begin(void)
{
    SYSCON_ON |= SYSCON_ON_WKT;
    nap_clock();
    WKT_CTRL = WKT_CTRL_SLOW | WKT_CTRL_ALARM | WKT_CTRL_CLEAR;
    SYSCON_STARTERP1 = SYSCON_STARTERP1_WKT;
    PMU_PCON = PMU_PCON_POWER_DOWN;
    NVIC_ISER = NVIC_WKT;
}

<#assign pll = (t.clock!"no") == "pll">
static void nap_start(void)
{
<#if pll>
    /* Only the internal oscillator stops and starts cleanly. */
    MAIN_CLOCK_SELECT = 0;
    MAIN_CLOCK_UPDATE = 0;
    MAIN_CLOCK_UPDATE = 1u;
</#if>
    SYSCON_PDAWAKECFG = SYSCON_PDRUNCFG;
}

/* Masked, so that the interrupt wakes the core and does no more. */
static void nap(void)
{
    __asm__ volatile("cpsid i" : : : "memory");
    WKT_COUNT = fixed_u32(NAP_TICKS);
    SLEEP_CONTROL = SLEEP_DEEP;
    do {
        __asm__ volatile("dsb\n\twfi" : : : "memory");
    } while ((WKT_CTRL & WKT_CTRL_ALARM) == 0);
    SLEEP_CONTROL = 0;
    WKT_CTRL = WKT_CTRL_SLOW | WKT_CTRL_ALARM;
    /* Read back, so that the timer asks no more before the interrupt controller forgets that it has. */
    (void)WKT_CTRL;
    NVIC_ICPR = NVIC_WKT;
    __asm__ volatile("cpsie i" : : : "memory");
}

static void nap_end(void)
{
<#if pll>
    uint32_t patience = fixed_u32(BUS_PATIENCE);

    /* It has power again since the part woke up, and locks within 0.1 ms. */
    while (SYSCON_SYSPLLSTAT == 0 && --patience != 0) {
    }
    MAIN_CLOCK_SELECT = MAIN_CLOCK_PLL;
    MAIN_CLOCK_UPDATE = 0;
    MAIN_CLOCK_UPDATE = 1u;
</#if>
}

