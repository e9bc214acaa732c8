<#-- Interrupts of Bumblebee cores: Nuclei ECLIC architecture manual, 6 (registers of each source). -->
<#macro attribute> __attribute__((interrupt))</#macro>
<#macro enable number>*(volatile uint32_t *)${"0xD200" + base(4096 + 4 * number?number)}u = 0xFF010100u;</#macro>
<#function base number>
<#local digits = "0123456789ABCDEF">
<#return digits[(number / 4096)?floor % 16] + digits[(number / 256)?floor % 16] + digits[(number / 16)?floor % 16] + digits[number % 16]>
</#function>
<#macro on>__asm__ volatile(".option push\n\t.option arch, +zicsr\n\tcsrsi mstatus, 8\n\t.option pop" : : : "memory");</#macro>
