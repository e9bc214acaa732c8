<#-- Interrupts of QingKe cores: QingKe V2 processor manual, 3.3 (PFIC), and CSR mstatus. -->
<#macro attribute> __attribute__((interrupt))</#macro>
<#macro enable number>*(volatile uint32_t *)${"0x" + base(number)}u = 1u << ${number?number % 32};</#macro>
<#function base number><#return (number?number < 32)?then("E000E100", "E000E104")></#function>
<#macro on>__asm__ volatile(".option push\n\t.option arch, +zicsr\n\tcsrsi mstatus, 8\n\t.option pop" : : : "memory");</#macro>
