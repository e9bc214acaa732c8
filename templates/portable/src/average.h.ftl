<#include "/portable/head.ftl">
<@head about="The average over successive readings, as a sum: nothing is divided."/>
#ifndef AVERAGE_H
#define AVERAGE_H

#include "config.h"

<#if t.kind == "block">
/* The sum of the last whole block of AVERAGE_READINGS values. */
extern sum_t average_sum;

/* Takes one value in. True when it completes a block. */
bool average_add(value_t value);
<#else>
/*
 * Takes one value in and gives the average, in counts of sum_t. The first value
 * stands for all that were before it.
 */
sum_t average_add(value_t value);
</#if>

#endif
