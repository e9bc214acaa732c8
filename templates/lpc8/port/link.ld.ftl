<#assign vector_sum = true rom_bytes = 32>
<#include "/thumb/port/link.ld.ftl">
