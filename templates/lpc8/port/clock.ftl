<#-- From the internal 12 MHz. The number is the core's divider, then that of the PLL: UM10601 4.7.4, UM10800 5.7.4. -->
<#if t.clock == "pll">
    SYSCON_SYSPLLCTRL = fixed_u16(CLOCK_SETTING) & 0x7Fu;
    SYSCON_PDRUNCFG &= ~SYSCON_PDRUNCFG_SYSPLL;
    wait_for_lock();
    SYSCON_SYSAHBCLKDIV = fixed_u16(CLOCK_SETTING) >> 8;
    SYSCON_MAINCLKSEL = SYSCON_MAINCLKSEL_PLL;
    SYSCON_MAINCLKUEN = 0;
    SYSCON_MAINCLKUEN = 1u;
<#else>
    SYSCON_SYSAHBCLKDIV = fixed_u8(CLOCK_SETTING);
</#if>
