/* SPDX-License-Identifier: 0BSD */
/*
 * Where the program starts, and where interrupts go.
 *
 * cold-store guard, for STM32F030F4. Written by ullage from a loop file: to change
 * a number, change it there and emit again.
 */
/*
 * Vector table and state after a reset: ARMv6-M Architecture Reference
 * Manual (DDI 0419), B1.5.3 and B1.5.5; the same in ARMv7-M (DDI 0403).
 */
#include <stdint.h>

typedef void vector(void);

extern uint32_t link_stack_top[];

int main(void);
void start(void);
void unexpected(void);

/* The first word is where the stack begins; the reset vector follows. */
struct vectors {
    uint32_t *stack;
    vector *handlers[47];
};

extern const struct vectors vectors;
__attribute__((section(".vectors"), used)) const struct vectors vectors = {
    link_stack_top,
    {
        start,
        unexpected,
        unexpected,
        unexpected,
        unexpected,
        unexpected,
        unexpected,
        unexpected,
        unexpected,
        unexpected,
        unexpected,
        unexpected,
        unexpected,
        unexpected,
        unexpected,
        unexpected,
        unexpected,
        unexpected,
        unexpected,
        unexpected,
        unexpected,
        unexpected,
        unexpected,
        unexpected,
        unexpected,
        unexpected,
        unexpected,
        unexpected,
        unexpected,
        unexpected,
        unexpected,
        unexpected,
        unexpected,
        unexpected,
        unexpected,
        unexpected,
        unexpected,
        unexpected,
        unexpected,
        unexpected,
        unexpected,
        unexpected,
        unexpected,
        unexpected,
        unexpected,
        unexpected,
        unexpected,
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
