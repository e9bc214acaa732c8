<#-- From the internal 16 MHz. A source that is not ready yet is switched to when it is: RM0444, 5.2.6. -->
<#if t.clock == "pll">
    FLASH_ACR |= FLASH_ACR_WAIT;
    /* Read back before the clock is raised, which is when they count: RM0444, 3.3.4. */
    (void)FLASH_ACR;
    RCC_PLLCFGR = fixed_u32(CLOCK_SETTING);
    RCC_CR |= RCC_CR_PLLON;
    /* The switch waits for the PLL to be ready. */
    RCC_CFGR |= RCC_CFGR_SW_PLL;
<#else>
    RCC_CR = (RCC_CR & ~RCC_CR_HSIDIV) | fixed_u32(CLOCK_SETTING);
</#if>
