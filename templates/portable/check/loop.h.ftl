<#include "/portable/head.ftl">
<@head about="What the loop file says, in its own units."/>
#ifndef LOOP_H
#define LOOP_H

/*
 * The checks compute with these numbers and never with those of config.h: what
 * was folded when the firmware was written is computed here once more, the
 * plain way.
 */

<#list words as word>
#define ${word} ${word?index}
</#list>

<#list numbers as name, number>
#define ${name} ${number}
</#list>

#endif
