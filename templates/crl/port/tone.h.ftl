<#if tone??>
<#include "/portable/head.ftl">
<@head about="The sounder's tone."/>
#ifndef TONE_H
#define TONE_H

#include "registers.h"

/* A match toggles the pin; without a tone the pin is forced low. RM0008 14.3.9, 15.3.8. */
static inline void port_sounder(bool on)
{
    *TONE_MODE = on ? TONE_TOGGLES : TONE_LOW;
}

#endif
</#if>
