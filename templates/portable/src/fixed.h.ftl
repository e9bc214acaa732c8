<#include "/portable/head.ftl">
<@head about="Numbers that the optimiser must not see into."/>
#ifndef FIXED_H
#define FIXED_H

#include <stdint.h>

/*
 * A compiler turns a known number into whatever is shortest: a shift, a
 * multiplication, a library call. So a threshold of 255 and one of 256 can
 * differ by dozens of bytes. These functions hand a number over unseen, and
 * the size of the code no longer depends on it: change a constant in config.h,
 * and what fitted still fits.
 */
#if defined(__AVR__)
/* The registers that take a number in one instruction. */
#define FIXED_HIDE(value) __asm__ volatile("" : "+d"(value))
#elif defined(__GNUC__)
#define FIXED_HIDE(value) __asm__ volatile("" : "+r"(value))
#else
#define FIXED_HIDE(value) ((void)0)
#endif

<#list [["s8", "int8_t"], ["u8", "uint8_t"], ["s16", "int16_t"], ["u16", "uint16_t"], ["s32", "int32_t"], ["u32", "uint32_t"]] as type>
static inline ${type[1]} fixed_${type[0]}(${type[1]} value)
{
    FIXED_HIDE(value);
    return value;
}

</#list>
#endif
