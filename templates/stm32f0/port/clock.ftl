<#-- From the internal 8 MHz. A source that is not ready yet is switched to when it is: 6.2.7. -->
<#if t.clock == "pll">
    FLASH_ACR = FLASH_ACR_WAIT;
    RCC_CFGR = fixed_u32(CLOCK_SETTING);
    RCC_CR |= RCC_CR_PLLON;
    /* The switch waits for the PLL to be ready. */
    RCC_CFGR |= RCC_CFGR_SW_PLL;
<#else>
    RCC_CFGR = fixed_u32(CLOCK_SETTING);
</#if>
