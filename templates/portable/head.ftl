<#-- The first lines of every emitted file. Sees: project (escaped for a C comment), target. -->
<#macro head about>
/* SPDX-License-Identifier: 0BSD */
/*
 * ${about}
 *
 * ${project}, for ${title}. Written by ullage from a loop file: to change
 * a number, change it there and emit again.
 */
</#macro>
