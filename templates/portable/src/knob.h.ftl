<#include "/portable/head.ftl">
<@head about="The limit that the knob is set to."/>
#ifndef KNOB_H
#define KNOB_H

#include "config.h"

/* The limit, in counts of sum_t; the lowest voltage gives KNOB_LOW exactly. */
sum_t knob_limit(void);

#endif
