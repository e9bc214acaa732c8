<#-- Waiting for a tick: the part of pace.c that is the same for every timer. `due` and `pending` are said before. -->
<#macro wait indent>
<#if t.sleep == "idle">
<#-- An interrupt that is pending ends the sleep, masked or not. -->
${indent}/* No tick falls between looking and sleeping: a masked interrupt wakes the core too. */
${indent}for (;;) {
${indent}    __asm__ volatile("cpsid i" : : : "memory");
${indent}    if (<@due/>) {
${indent}        break;
${indent}    }
${indent}    __asm__ volatile("wfi\n\tcpsie i" : : : "memory");
${indent}}
${indent}__asm__ volatile("cpsie i" : : : "memory");
<#else>
${indent}while (<@pending/>) {
${indent}}
</#if>
</#macro>
