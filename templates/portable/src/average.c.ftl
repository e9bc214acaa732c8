<#include "/portable/head.ftl">
<@head about="The average over successive readings, as a sum: nothing is divided."/>
#include "average.h"

<#if t.kind == "block">
sum_t average_sum;
static uint8_t average_left;

bool average_add(value_t value)
{
    if (average_left == 0) {
        average_left = fixed_u8(AVERAGE_READINGS);
        average_sum = 0;
    }
    average_sum = (sum_t)(average_sum + (sum_t)value);
    return --average_left == 0;
}
<#elseif t.kind == "moving">
static value_t average_window[AVERAGE_READINGS];
static uint8_t average_at;
static sum_t average_sum;
static bool average_primed;

sum_t average_add(value_t value)
{
    uint8_t times = average_primed ? 1 : fixed_u8(AVERAGE_READINGS);

    average_primed = true;
    do {
        value_t *oldest = &average_window[average_at];

        average_sum = (sum_t)(average_sum - (sum_t)*oldest + (sum_t)value);
        *oldest = value;
        if (++average_at == fixed_u8(AVERAGE_READINGS)) {
            average_at = 0;
        }
    } while (--times != 0);
    return average_sum;
}
<#elseif t.kind == "exponential">
static sum_t average_level;
static bool average_primed;

sum_t average_add(value_t value)
{
    uint8_t times = fixed_u8(AVERAGE_READINGS);

    if (average_primed) {
<#if t.divide == "shift">
        average_level = (sum_t)(average_level -
            ((sum_t)(average_level + (sum_t)fixed_u8(AVERAGE_HALF)) >> fixed_u8(AVERAGE_SHIFT)));
<#else>
        sum_t half = (sum_t)fixed_u8(AVERAGE_HALF);

<#if t.sum?starts_with("s")>
        if (average_level < 0) {
            half = (sum_t)-half;
        }
</#if>
        average_level = (sum_t)(average_level -
            (sum_t)(average_level + half) / (sum_t)fixed_u8(AVERAGE_READINGS));
</#if>
        times = 1;
    }
    average_primed = true;
    do {
        average_level = (sum_t)(average_level + (sum_t)value);
    } while (--times != 0);
    return average_level;
}
<#else>
static value_t average_window[AVERAGE_READINGS];
static uint8_t average_at;
static bool average_primed;

/* The value that has at most half of the window below it, and at most half above it. */
static value_t average_middle(void)
{
    uint8_t half = fixed_u8(AVERAGE_READINGS / 2);
    const value_t *candidate = average_window;

    for (;; ++candidate) {
        uint8_t below = 0;
        uint8_t above = 0;
        uint8_t left = fixed_u8(AVERAGE_READINGS);
        const value_t *other = average_window;

        do {
            if (*other < *candidate) {
                ++below;
            }
            if (*other > *candidate) {
                ++above;
            }
            ++other;
        } while (--left != 0);
        if (below <= half && above <= half) {
            return *candidate;
        }
    }
}

sum_t average_add(value_t value)
{
    uint8_t times = average_primed ? 1 : fixed_u8(AVERAGE_READINGS);

    average_primed = true;
    do {
        average_window[average_at] = value;
        if (++average_at == fixed_u8(AVERAGE_READINGS)) {
            average_at = 0;
        }
    } while (--times != 0);
    return (sum_t)average_middle();
}
</#if>
