<#include "/portable/head.ftl">
<@head about="Numbers that the optimiser must not see into."/>
<#assign sizes = [{"name": "s8", "c": "int8_t", "bits": 8}, {"name": "u8", "c": "uint8_t", "bits": 8}, {"name": "s16", "c": "int16_t", "bits": 16}, {"name": "u16", "c": "uint16_t", "bits": 16}, {"name": "s32", "c": "int32_t", "bits": 32}, {"name": "u32", "c": "uint32_t", "bits": 32}]>
#ifndef FIXED_H
#define FIXED_H

#include <stdint.h>

/*
 * A compiler turns a known number into whatever is shortest: a shift, a
 * multiplication, a library call, a register that happens to hold the same
 * number. So a threshold of 255 and one of 256 can differ by dozens of bytes.
 * These macros hand a constant over unseen, and the size of the code no longer
 * depends on it: change a number in config.h, and what fitted still fits.
 */
#if defined(__AVR__)

#define FIXED_LOAD(type, load, value) \
    (__extension__({ \
        type fixed_; \
        __asm__ volatile(load FIXED_MARK(__COUNTER__) : "=d"(fixed_) : "n"(value)); \
        fixed_; \
    }))

/* A comment that tells two loads of the same number apart, or they might be made one. */
#define FIXED_MARK(number) FIXED_MARK_TEXT(number)
#define FIXED_MARK_TEXT(number) " ; " #number

#define FIXED_LOAD_8 "ldi %0, lo8(%1)"
#define FIXED_LOAD_16 "ldi %A0, lo8(%1)\n\tldi %B0, hi8(%1)"
#define FIXED_LOAD_32 FIXED_LOAD_16 "\n\tldi %C0, hlo8(%1)\n\tldi %D0, hhi8(%1)"

<#list sizes as size>
#define fixed_${size.name}(value) FIXED_LOAD(${size.c}, FIXED_LOAD_${size.bits}, value)
</#list>

/* Instructions that compare or mask have room for any byte. */
#define fixed_compare(value) (value)
#define fixed_mask(value) (value)

#elif defined(__thumb__)

#define FIXED_LOAD(type, load, value) \
    (__extension__({ \
        type fixed_; \
        __asm__ volatile(".syntax unified\n\t" load FIXED_MARK(__COUNTER__) \
                         : "=l"(fixed_) : "n"(value) : "cc"); \
        fixed_; \
    }))

/* A comment that tells two loads of the same number apart, or they might be made one. */
#define FIXED_MARK(number) FIXED_MARK_TEXT(number)
#define FIXED_MARK_TEXT(number) " @ " #number

/* Wide numbers lie behind the function, each in a word of its own. */
#define FIXED_LOAD_8 "movs %0, (%c1) & 255"
#define FIXED_LOAD_32 \
    ".subsection 1\n\t.balign 4\n1:\t.word %c1\n\t.previous\n\tldr.n %0, 1b"

<#list sizes as size>
#define fixed_${size.name}(value) FIXED_LOAD(${size.c}, FIXED_LOAD_<#if size.bits == 8>8<#else>32</#if>, value)
</#list>
#define fixed_compare(value) fixed_u8(value)
#define fixed_mask(value) fixed_u16(value)

#elif defined(__riscv)

#define FIXED_LOAD(type, load, value) \
    (__extension__({ \
        type fixed_; \
        __asm__ volatile(".option push\n\t.option norvc\n\t" load \
                         "\n\t.option pop" FIXED_MARK(__COUNTER__) \
                         : "=r"(fixed_) : "n"(value)); \
        fixed_; \
    }))

/* A comment that tells two loads of the same number apart, or they might be made one. */
#define FIXED_MARK(number) FIXED_MARK_TEXT(number)
#define FIXED_MARK_TEXT(number) " # " #number

#define FIXED_LOAD_8 "addi %0, zero, %1"
#define FIXED_LOAD_32 "lui %0, %%hi(%1)\n\taddi %0, %0, %%lo(%1)"

<#list sizes as size>
#define fixed_${size.name}(value) FIXED_LOAD(${size.c}, FIXED_LOAD_<#if size.bits == 8>8<#else>32</#if>, value)
</#list>
#define fixed_compare(value) fixed_u8(value)
#define fixed_mask(value) fixed_u16(value)

#else

#if defined(__GNUC__)
#define FIXED_HIDE(value) __asm__ volatile("" : "+r"(value))
#else
#define FIXED_HIDE(value) ((void)0)
#endif

<#list sizes as size>
static inline ${size.c} fixed_${size.name}(${size.c} value)
{
    FIXED_HIDE(value);
    return value;
}

</#list>
#define fixed_compare(value) (value)
#define fixed_mask(value) (value)

#endif

#endif
