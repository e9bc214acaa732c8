<#assign boot_bytes = 256>
<#include "/thumb/port/link.ld.ftl">
