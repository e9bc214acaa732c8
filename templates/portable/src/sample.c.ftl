<#include "/portable/head.ftl">
<@head about="Assembles one sample from its bytes."/>
#include "../bus/bus.h"
<#if t.check != "none">
#include "check.h"
</#if>
#include "reading.h"

<#assign bytes = t.bytes?number get = (t.check == "none")?then("bus_get", "check_get")>
<#assign signed = t.raw?starts_with("s")>
<#assign word = (bytes == 1)?then("uint8_t", (bytes == 2)?then("uint16_t", "uint32_t"))>
<#assign whole = signed?then((bytes == 1)?then("int8_t", (bytes == 2)?then("int16_t", "int32_t")), word)>
<#macro ends i><#if i == bytes - 1 && t.check != "sample">last<#else>BUS_MORE</#if></#macro>
raw_t reading_sample(uint8_t last)
{
    ${word} word;

<#if t.check == "sample">
    check_value = fixed_u8(CHECK_INIT);
</#if>
    word = ${get}(<@ends 0/>);
<#list 1..<bytes as i>
<#if t.order == "big">
    word = (${word})((${word})(word << 8) | ${get}(<@ends i/>));
<#else>
    word |= (${word})((${word})${get}(<@ends i/>) << ${8 * i});
</#if>
</#list>
<#if t.check == "sample">
    (void)check_get(last);
    check_end();
</#if>
<#if bytes == 3 && signed>
    if ((word & 0x800000UL) != 0) {
        word |= 0xFF000000UL;
    }
</#if>
<#if t.bits != "all">
<#assign narrow = "uint" + t.raw?substring(1) + "_t">
<#if t.shift == "yes">
    word = (${word})(word >> fixed_u8(SAMPLE_SHIFT));
</#if>
<#if t.raw?ends_with("8")>
    word &= fixed_u8(SAMPLE_MASK);
<#if signed>
    /* Carries the sign bit on to the width of the type. */
    return (raw_t)((uint8_t)((uint8_t)word ^ fixed_u8(SAMPLE_SIGN)) - fixed_u8(SAMPLE_SIGN));
<#else>
    return (raw_t)word;
</#if>
<#else>
<#assign hide = t.raw?ends_with("32")?then("fixed_u32", "fixed_mask")>
<#if signed>
    /* Carries the sign bit on to the width of the type. */
    return (raw_t)(${narrow})((((${narrow})word & ${hide}(SAMPLE_MASK)) ^ ${hide}(SAMPLE_SIGN)) - ${hide}(SAMPLE_SIGN));
<#else>
    return (raw_t)((${narrow})word & ${hide}(SAMPLE_MASK));
</#if>
</#if>
<#elseif t.shift == "yes">
    /* A right shift of a negative number keeps its sign on every compiler meant here. */
    return (raw_t)((${whole})word >> fixed_u8(SAMPLE_SHIFT));
<#else>
    return (raw_t)word;
</#if>
}
