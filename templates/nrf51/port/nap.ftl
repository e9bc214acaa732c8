/*
 * nRF51 Series Reference Manual v3.0: chapters CLOCK (the high clock stops by itself when no peripheral asks for it), RTC
 * and POWER (System ON); offsets and the number of the interrupt are those of the maker's header nrf51.h.
 */
#define CLOCK_TASKS_LFCLKSTART REGISTER(0x40000008u)
#define CLOCK_EVENTS_LFCLKSTARTED REGISTER(0x40000104u)
#define CLOCK_LFCLKSRC REGISTER(0x40000518u)
#define CLOCK_LFCLKSRC_RC 0u
#define RTC0_TASKS_START REGISTER(0x4000B000u)
#define RTC0_TASKS_CLEAR REGISTER(0x4000B008u)
#define RTC0_EVENTS_COMPARE0 REGISTER(0x4000B140u)
#define RTC0_INTENSET REGISTER(0x4000B304u)
#define RTC0_INTENSET_COMPARE0 (1u << 16)
#define RTC0_CC0 REGISTER(0x4000B540u)
#define TIMER0_TASKS_SHUTDOWN REGISTER(0x40008010u)
#define UART_TASKS_STOPTX REGISTER(0x4000200Cu)
/* Armv6-M Architecture Reference Manual, B3.2.7 and B3.4: an interrupt that is pending is an event. */
#define SLEEP_CONTROL REGISTER(0xE000ED10u)
#define SLEEP_PENDING_WAKES 0x10u
#define NVIC_ICPR REGISTER(0xE000E280u)
#define NVIC_RTC0 (1u << 11)

static void nap_begin(void)
{
    CLOCK_LFCLKSRC = CLOCK_LFCLKSRC_RC;
    CLOCK_TASKS_LFCLKSTART = 1u;
    /* Within a millisecond: product specification, from memory. */
    while (CLOCK_EVENTS_LFCLKSTARTED == 0) {
    }
    RTC0_CC0 = fixed_u32(NAP_TICKS);
    RTC0_INTENSET = RTC0_INTENSET_COMPARE0;
    RTC0_TASKS_START = 1u;
    SLEEP_CONTROL = SLEEP_PENDING_WAKES;
}

/* What asks for the high clock, though it does nothing, lets go of it. */
static void nap_start(void)
{
    TIMER0_TASKS_SHUTDOWN = 1u;
    UART_TASKS_STOPTX = 1u;
}

/* An event that is left from before ends a wfe at once, so that of the compare counts. */
static void nap(void)
{
    RTC0_TASKS_CLEAR = 1u;
    RTC0_EVENTS_COMPARE0 = 0;
    NVIC_ICPR = NVIC_RTC0;
    do {
        __asm__ volatile("wfe" : : : "memory");
    } while (RTC0_EVENTS_COMPARE0 == 0);
}

static void nap_end(void)
{
    TIMER0_TASKS_START = 1u;
    if (UART_ENABLE != 0) {
        UART_TASKS_STARTTX = 1u;
    }
}

