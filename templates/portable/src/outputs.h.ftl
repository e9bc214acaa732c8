<#include "/portable/head.ftl">
<@head about="What the alarm drives."/>
#ifndef OUTPUTS_H
#define OUTPUTS_H

#include "config.h"

/* Switches everything on or off, with its pattern from the start. */
void outputs_show(bool on);
<#if t.steps == "yes">

/* Moves blinking and beeping on by one tick<#if t.mute != "none">, and looks at the mute button</#if>. */
void outputs_step(void);
</#if>

#endif
