<#-- An oscillator of its own that starts at 600 kHz and is halved: UM10601 4.6.6, UM10800 5.6.6. -->
    SYSCON_WDTOSCCTRL = SYSCON_WDTOSCCTRL_300_KHZ;
    SYSCON_PDRUNCFG &= ~SYSCON_PDRUNCFG_WDTOSC;
    SYSCON_ON |= SYSCON_ON_WWDT;
