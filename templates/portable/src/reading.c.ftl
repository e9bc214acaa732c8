<#include "/portable/head.ftl">
<@head about="Takes one frame and reduces it while the bytes come in."/>
#include "../bus/bus.h"
<#if t.check == "yes">
#include "check.h"
</#if>
<#if t.poll == "yes">
#include "pace.h"
</#if>
#include "reading.h"

<#assign least = {"s8": "INT8_MIN", "u8": "0", "s16": "INT16_MIN", "u16": "0", "s32": "INT32_MIN", "u32": "0"}>
<#assign most = {"s8": "INT8_MAX", "u8": "UINT8_MAX", "s16": "INT16_MAX", "u16": "UINT16_MAX", "s32": "INT32_MAX", "u32": "UINT32_MAX"}>
<#assign last = (t.check == "yes")?then("BUS_MORE", "BUS_LAST")>
<#if t.keep == "yes">
raw_t reading_frame[<#if t.samples == "many">FRAME_SAMPLES<#else>1</#if>];

</#if>
value_t reading_take(void)
{
<#if t.samples == "many">
<#if t.reduce == "mean" || t.reduce == "share_above">
    value_t value = 0;
<#elseif t.reduce == "max">
    value_t value = ${least[t.raw]};
<#else>
    value_t value = ${most[t.raw]};
</#if>
    uint8_t left = fixed_u8(FRAME_SAMPLES);
<#if t.keep == "yes">
    raw_t *keep = reading_frame;
</#if>

    reading_ask();
    do {
        raw_t raw = reading_sample(<#if t.check == "yes">BUS_MORE<#else>left == 1 ? BUS_LAST : BUS_MORE</#if>);

<#if t.keep == "yes">
        *keep++ = raw;
</#if>
<#if t.reduce == "mean">
        value = (value_t)(value + (value_t)raw);
<#elseif t.reduce == "max">
        if (raw > value) {
            value = raw;
        }
<#elseif t.reduce == "min">
        if (raw < value) {
            value = raw;
        }
<#else>
        if (raw ${(t.counts == "above")?then(">", "<")} fixed_raw(FRAME_LEVEL)) {
            ++value;
        }
</#if>
<#if t.poll == "yes">
        pace_poll();
</#if>
    } while (--left != 0);
<#else>
    raw_t raw;
    value_t value;

    reading_ask();
    raw = reading_sample(${last});
<#if t.keep == "yes">
    reading_frame[0] = raw;
</#if>
<#if t.reduce == "none">
    value = (value_t)raw;
<#else>
    value = raw ${(t.counts == "above")?then(">", "<")} fixed_raw(FRAME_LEVEL) ? 1 : 0;
</#if>
<#if t.poll == "yes">
    pace_poll();
</#if>
</#if>
<#if t.check == "yes">
    (void)check_get(BUS_LAST);
    check_end();
</#if>
    bus_stop();
    return value;
}
