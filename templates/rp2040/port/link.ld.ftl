<#assign boot_bytes = 256 ram_code = true>
<#include "/thumb/port/link.ld.ftl">
