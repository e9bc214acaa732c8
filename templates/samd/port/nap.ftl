/*
 * Standby, and the RTC that ends it: SAM D21 data sheet, "PM" (Sleep Mode Controller), "GCLK", "NVMCTRL", and
 * "RTC", of which 19.6.2.2 (reset) and 19.6.3.1 (the counter of 32 bits); the other SAM D alike.
 */
/* Generator 3 on, from the oscillator of 32.768 kHz that always runs. */
#define GCLK_GENCTRL_RTC (1u << 16 | 3u << 8 | 3u)
#define GCLK_CLKCTRL_GENERATOR_3 (3u << 8)
/* The watchdog's clock is the one before, in all of them. */
#define GCLK_RTC (GCLK_WDT + 1u)
#define RTC_CTRL REGISTER16(0x40001400u)
#define RTC_CTRL_SWRST 0x01u
#define RTC_CTRL_ENABLE 0x02u
#define RTC_CTRL_MATCHCLR 0x80u
#define RTC_INTENSET REGISTER8(0x40001407u)
#define RTC_INTFLAG REGISTER8(0x40001408u)
#define RTC_CMP0 0x01u
#define RTC_STATUS REGISTER8(0x4000140Au)
#define RTC_STATUS_SYNCBUSY 0x80u
#define RTC_COUNT REGISTER(0x40001410u)
#define RTC_COMP0 REGISTER(0x40001418u)
<#if family.sleep.registers.flash??>
#define NVMCTRL_CTRLB_SLEEPPRM (3u << 8)
</#if>
/* Armv6-M Architecture Reference Manual, B3.2.7 and B3.4. */
#define SLEEP_CONTROL REGISTER(0xE000ED10u)
#define SLEEP_DEEP 0x04u
#define NVIC_ISER REGISTER(0xE000E100u)
#define NVIC_ICER REGISTER(0xE000E180u)
#define NVIC_ICPR REGISTER(0xE000E280u)
#define NVIC_RTC (1u << 3)

/* What is written takes six clocks of the RTC, 0.2 ms, to get there. */
static void nap_settle(void)
{
    uint32_t patience = fixed_u32(BUS_PATIENCE);

    while ((RTC_STATUS & RTC_STATUS_SYNCBUSY) != 0 && --patience != 0) {
    }
}

/* Read back, so that the RTC asks no more before the interrupt controller forgets that it has. */
static void nap_forget(void)
{
    RTC_INTFLAG = RTC_CMP0;
    (void)RTC_INTFLAG;
    NVIC_ICPR = NVIC_RTC;
}

static void nap_begin(void)
{
<#if family.sleep.registers.flash??>
    /* Errata, reference 13140: the part may not wake up if its flash sleeps. */
    NVMCTRL_CTRLB |= NVMCTRL_CTRLB_SLEEPPRM;
</#if>
    GCLK_GENCTRL = GCLK_GENCTRL_RTC;
    GCLK_CLKCTRL = GCLK_CLKCTRL_ON | GCLK_CLKCTRL_GENERATOR_3 | GCLK_RTC;
    /* The RTC goes on through a reset of the part, and takes its own only while it stands. */
    RTC_CTRL &= (uint16_t)~RTC_CTRL_ENABLE;
    nap_settle();
    RTC_CTRL = RTC_CTRL_SWRST;
    nap_settle();
    RTC_COMP0 = fixed_u32(NAP_TICKS) - 1u;
    nap_settle();
    RTC_CTRL = RTC_CTRL_MATCHCLR | RTC_CTRL_ENABLE;
    nap_settle();
    RTC_INTENSET = RTC_CMP0;
}

static void nap_start(void)
{
    uint32_t patience = fixed_u32(BUS_PATIENCE);

    /* The STOP of the last transaction may still be on its way. */
    while ((PM_APBCMASK & PM_APBCMASK_I2C) != 0 &&
           (I2C_STATUS & I2C_STATUS_BUSSTATE) == I2C_STATUS_OWNER && --patience != 0) {
    }
    RTC_COUNT = 0;
    nap_settle();
    nap_forget();
}

/*
 * Masked, so that the interrupt wakes the core and does no more. The tick asks for none in these programs, which
 * is well: it could come before RAM is awake, says the maker's support.
 */
static void nap(void)
{
<#if t.watchdog == "yes">
    uint32_t patience = fixed_u32(BUS_PATIENCE);

    /* Standby would stop the bus that brings the watchdog its food. */
    while ((WDT_STATUS & WDT_STATUS_SYNCBUSY) != 0 && --patience != 0) {
    }
</#if>
    __asm__ volatile("cpsid i" : : : "memory");
    NVIC_ISER = NVIC_RTC;
    SLEEP_CONTROL = SLEEP_DEEP;
    do {
        __asm__ volatile("dsb\n\twfi" : : : "memory");
    } while ((RTC_INTFLAG & RTC_CMP0) == 0);
    SLEEP_CONTROL = 0;
    NVIC_ICER = NVIC_RTC;
    nap_forget();
    __asm__ volatile("cpsie i" : : : "memory");
}

static void nap_end(void)
{
}

