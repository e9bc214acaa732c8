<#-- A source that is not ready yet is switched to when it is: RM0377, 7.2.6. -->
<#if t.clock == "msi">
    RCC_ICSCR = (RCC_ICSCR & ~RCC_ICSCR_MSIRANGE) | fixed_u32(CLOCK_SETTING);
<#elseif t.clock == "hsi">
    FLASH_ACR |= FLASH_ACR_WAIT;
    /* Read back before the clock is raised, which is when it counts: RM0377, 3.3.3. */
    (void)FLASH_ACR;
    RCC_CR |= RCC_CR_HSION;
    RCC_CFGR = fixed_u32(CLOCK_SETTING);
<#else>
    uint32_t patience = fixed_u32(BUS_PATIENCE);

    FLASH_ACR |= FLASH_ACR_WAIT;
    /* Read back before the clock is raised, which is when it counts: RM0377, 3.3.3. */
    (void)FLASH_ACR;
    RCC_CR |= RCC_CR_HSION;
    RCC_APB1ENR |= RCC_APB1ENR_PWREN;
    PWR_CR = PWR_CR_VOS_1;
    while (((PWR_CSR & PWR_CSR_VOSF) != 0 || (RCC_CR & RCC_CR_HSIRDY) == 0) && --patience != 0) {
    }
    RCC_CFGR = fixed_u32(CLOCK_SETTING);
    RCC_CR |= RCC_CR_PLLON;
    /* The switch waits for the PLL to be ready. */
    RCC_CFGR |= RCC_CFGR_SW_PLL;
</#if>
