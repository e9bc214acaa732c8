<#include "/portable/head.ftl">
<@head about="Every number and type of this firmware, and where it comes from."/>
#ifndef CONFIG_H
#define CONFIG_H

#include <stdbool.h>
#include <stdint.h>

#include "fixed.h"

/* Types, each as narrow as the numbers that it must hold allow. */

<#list types as type>
/* ${type.why}. */
typedef ${type.c} ${type.name};

</#list>
/* Hides a number of a type of ours from the optimiser. */
#define fixed_raw(value) fixed_${raw}(value)
#define fixed_sum(value) fixed_${sum}(value)
<#if period??>
#define fixed_period(value) fixed_${period}(value)
</#if>

<#list constants as constant>
/* ${constant.why}. */
#define ${constant.name} ${constant.literal}

</#list>
#endif
