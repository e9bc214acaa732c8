/* PFIC_SCTLR: deep, and by wfi until an event comes. */
#define SLEEP_CONTROL REGISTER(0xE000ED10u)
#define SLEEP_DEEP 0x0Cu
#define SLEEP_EVENT 0x20u

/* An event that is left from before ends the first wfi: so there is one, and then a second wfi. */
static void nap_sleep(void)
{
    SLEEP_CONTROL = SLEEP_DEEP | SLEEP_EVENT;
    SLEEP_CONTROL = SLEEP_DEEP;
    __asm__ volatile("wfi\n\twfi" : : : "memory");
    SLEEP_CONTROL = 0;
}
