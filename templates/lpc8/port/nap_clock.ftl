/* The oscillator of 10 kHz in the part that always has power: UM10601 5.6.3. The watchdog has another one. */
#define PMU_DPDCTRL REGISTER(0x40020014u)
#define PMU_DPDCTRL_LPOSCEN 0x04u
<#if t.watchdog == "yes">
#define SYSCON_PDSLEEPCFG REGISTER(0x40048230u)
</#if>

static void nap_clock(void)
{
    PMU_DPDCTRL |= PMU_DPDCTRL_LPOSCEN;
<#if t.watchdog == "yes">
    SYSCON_PDSLEEPCFG &= ~SYSCON_PDRUNCFG_WDTOSC;
</#if>
}
