/* The low-power oscillator, 1 MHz, which is the watchdog's too. */
#define SYSCON_LPOSCCLKEN_WKT 0x02u
#define SYSCON_PDSLEEPCFG REGISTER(0x40048230u)

static void nap_clock(void)
{
    SYSCON_PDRUNCFG &= ~SYSCON_PDRUNCFG_LPOSC;
    SYSCON_LPOSCCLKEN |= SYSCON_LPOSCCLKEN_WKT;
    SYSCON_PDSLEEPCFG &= ~SYSCON_PDRUNCFG_LPOSC;
}
