<#include "/portable/head.ftl">
<@head about="Makes the board ready: pins."/>
#include "port.h"

void port_begin(void)
{
<#include "/numbered/port/begin_pins.ftl">
}
