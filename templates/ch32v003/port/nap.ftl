/*
 * Standby, and the auto-wakeup unit that ends it by an event: CH32V003 reference manual, 2.3 and 2.4
 * (PWR), 3.4 (RSTSCKR), 6.4 (EXTI, whose line 9 it is) and 6.5 (PFIC_SCTLR); numbers of sections from
 * memory, registers as in the maker's example of Standby. Registers and RAM keep what they hold.
 */
#define CLOCKS_POWER (1u << 28)
#define CLOCK_STATUS REGISTER(0x40021024u)
#define CLOCK_LSI 1u
#define CLOCK_LSI_READY 2u
#define POWER_CONTROL REGISTER(0x40007000u)
#define POWER_STANDBY 2u
#define POWER_WAKE REGISTER(0x40007008u)
#define POWER_WAKE_ON 2u
#define POWER_WAKE_WINDOW REGISTER(0x4000700Cu)
#define POWER_WAKE_PRESCALER REGISTER(0x40007010u)
#define EVENTS REGISTER(0x40010404u)
#define EVENTS_FALLING REGISTER(0x4001040Cu)
#define EVENT_WAKE (1u << 9)
#define SLEEP_CONTROL REGISTER(0xE000ED10u)
/* Deep, and by wfi until an event comes. */
#define SLEEP_DEEP 0x0Cu
#define SLEEP_EVENT 0x20u

static void nap_begin(void)
{
    CLOCKS_APB1 |= CLOCKS_POWER;
    CLOCK_STATUS |= CLOCK_LSI;
    /* Within 0.2 ms, from memory. */
    while ((CLOCK_STATUS & CLOCK_LSI_READY) == 0) {
    }
    POWER_CONTROL = POWER_STANDBY;
    POWER_WAKE_PRESCALER = fixed_u8(NAP_PRESCALER);
    POWER_WAKE_WINDOW = fixed_u8(NAP_WINDOW);
    EVENTS = EVENT_WAKE;
    EVENTS_FALLING = EVENT_WAKE;
}

static void nap_start(void)
{
    uint32_t patience = fixed_u32(BUS_PATIENCE);

    /* The STOP of the last transaction may still be on its way, and Standby would hold it up. */
    while ((CLOCKS_APB1 & CLOCK_BUS) != 0 && (BUS_CONTROL1 & BUS_STOP) != 0 && --patience != 0) {
    }
    POWER_WAKE = 0;
    POWER_WAKE = POWER_WAKE_ON;
}

/* An event that is left from before ends the first wfi: so there is one, and then a second wfi. */
static void nap(void)
{
    SLEEP_CONTROL = SLEEP_DEEP | SLEEP_EVENT;
    SLEEP_CONTROL = SLEEP_DEEP;
    __asm__ volatile("wfi\n\twfi" : : : "memory");
    SLEEP_CONTROL = 0;
}

static void nap_end(void)
{
<#if t.clock == "double">
    uint32_t patience = fixed_u32(BUS_PATIENCE);

    /* It wakes without its doubler. */
    CLOCK_CONTROL |= CLOCK_PLL;
    while ((CLOCK_CONTROL & CLOCK_PLL_READY) == 0 && --patience != 0) {
    }
    CLOCK_CONFIG = CLOCK_FROM_PLL;
</#if>
    POWER_WAKE = 0;
}

