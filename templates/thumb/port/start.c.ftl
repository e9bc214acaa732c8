<#include "/portable/head.ftl">
<@head about="Where the program starts, and where interrupts go."/>
/*
 * Vector table and state after a reset: ARMv6-M Architecture Reference
 * Manual (DDI 0419), B1.5.3 and B1.5.5; the same in ARMv7-M (DDI 0403).
 */
<#function serving number>
<#if number == 7 && vector_sum??><#return "link_vector_sum"></#if>
<#list handlers as handler><#if handler.number == number?c><#return handler.name></#if></#list>
<#return "unexpected">
</#function>
#include <stdint.h>

typedef void vector(void);

extern uint32_t link_stack_top[];

int main(void);
void start(void);
void unexpected(void);
<#if vector_sum??>
/* No routine, but what is missing to a sum of zero: see link.ld. */
void link_vector_sum(void);
</#if>
<#list handler_names as name>
void ${name}(void) __attribute__((weak, alias("unexpected")));
</#list>

/* The first word is where the stack begins; the reset vector follows. */
struct vectors {
    uint32_t *stack;
    vector *handlers[${vectors - 1}];
};

extern const struct vectors vectors;
__attribute__((section(".vectors"), used)) const struct vectors vectors = {
    link_stack_top,
    {
        start,
<#list 2..<vectors as number>
        ${serving(number)},
</#list>
    },
};

/* An interrupt that nobody asked for: stop, and let a watchdog bite. */
void unexpected(void)
{
    for (;;) {
    }
}

/* First values go to RAM, the rest of it becomes zero; no stack is used. */
__attribute__((naked, noreturn)) void start(void)
{
    __asm__ volatile(
        ".syntax unified\n\t"
        "ldr r0, =link_data_start\n\t"
        "ldr r1, =link_data_end\n\t"
        "ldr r2, =link_data_load\n\t"
        "b 2f\n"
        "1:\n\t"
        "ldmia r2!, {r3}\n\t"
        "stmia r0!, {r3}\n"
        "2:\n\t"
        "cmp r0, r1\n\t"
        "bne 1b\n\t"
        "ldr r1, =link_bss_end\n\t"
        "movs r3, #0\n\t"
        "b 4f\n"
        "3:\n\t"
        "stmia r0!, {r3}\n"
        "4:\n\t"
        "cmp r0, r1\n\t"
        "bne 3b\n\t"
        "bl main\n"
        "5:\n\t"
        "b 5b\n\t"
        ".pool");
}
