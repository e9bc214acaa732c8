<#assign vector_table = "addresses">
<#include "/riscv/port/start.c.ftl">
