<#-- Interrupts of Cortex-M: Armv6-M and Armv7-M Architecture Reference Manuals, B3.4 (NVIC). -->
<#macro attribute></#macro>
<#macro enable number>*(volatile uint32_t *)${"0x" + base(number?number - 16)}u = 1u << ${(number?number - 16) % 32};</#macro>
<#function base number><#return (number < 32)?then("E000E100", "E000E104")></#function>
<#macro on>__asm__ volatile("cpsie i" : : : "memory");</#macro>
