<#-- From the internal 12 MHz. The number is the core's divider, then that of the PLL: UM10601 4.7.4, UM10800 5.7.4. -->
<#if t.clock == "pll">
    SYSCON_SYSPLLCTRL = fixed_u16(CLOCK_SETTING) & 0x7Fu;
    SYSCON_PDRUNCFG &= ~SYSCON_PDRUNCFG_SYSPLL;
    wait_for_lock();
    SYSCON_SYSAHBCLKDIV = fixed_u16(CLOCK_SETTING) >> 8;
    MAIN_CLOCK_SELECT = MAIN_CLOCK_PLL;
    MAIN_CLOCK_UPDATE = 0;
    MAIN_CLOCK_UPDATE = 1u;
<#else>
    SYSCON_SYSAHBCLKDIV = fixed_u8(CLOCK_SETTING);
</#if>
