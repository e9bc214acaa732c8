<#-- Settings lie where the same flash is read past its cache. -->
<#assign boot_bytes = 256 ram_code = true settings_origin = "0x13000000">
<#include "/thumb/port/link.ld.ftl">
