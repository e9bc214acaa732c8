<#-- The boot ROM starts a program only if the first eight vectors add up to zero. -->
<#assign vector_sum = true>
<#include "/thumb/port/start.c.ftl">
