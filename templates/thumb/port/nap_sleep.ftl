/* Armv7-M Architecture Reference Manual, B3.2.7. */
#define SLEEP_CONTROL REGISTER(0xE000ED10u)
#define SLEEP_DEEP 0x04u

/* An event that is left from before ends the first wfe: so there is one, and then a second wfe. */
static void nap_sleep(void)
{
    SLEEP_CONTROL = SLEEP_DEEP;
    __asm__ volatile("sev\n\twfe\n\twfe" : : : "memory");
    SLEEP_CONTROL = 0;
}
