<#-- From the internal 48 MHz, which are divided by four after a reset: RM0490, 5.4.1. -->
<#if t.clock == "fast">
    FLASH_ACR |= FLASH_ACR_WAIT;
    /* Read back before the clock is raised, which is when it counts: RM0490, 3.3.4. */
    (void)FLASH_ACR;
</#if>
    RCC_CR = (RCC_CR & ~RCC_CR_HSIDIV) | fixed_u32(CLOCK_SETTING);
