<#include "/portable/head.ftl">
<@head about="Where the program starts, and where interrupts go."/>
<#-- A port whose core wants addresses sets vector_table to "addresses" and includes this. -->
<#function serving number>
<#list handlers as handler><#if handler.number == number?c><#return handler.name></#if></#list>
<#return "unexpected">
</#function>
<#assign tables = vector_table!"jumps">
/*
<#if tables == "jumps">
 * Each vector is an instruction that jumps to its handler, and mtvec is the
 * table with its lowest bit set: QingKe V2 to V4 processor manuals, 3.2.
<#else>
 * Each vector is the address of its handler, and the table is in mtvt, CSR
 * 0x307; a fault goes to mtvec, which starts the program over: Nuclei
 * Bumblebee core architecture manual, chapter 5.
</#if>
 * All jumps and addresses here have a fixed length, whatever lies between.
 */

int main(void);
void vectors(void);
void start(void);
void unexpected(void);
<#list handler_names as name>
void ${name}(void) __attribute__((weak, alias("unexpected")));
</#list>

/* The first instruction of the program is the first vector. */
__attribute__((section(".vectors"), naked, used)) void vectors(void)
{
    __asm__ volatile(
        ".option push\n\t"
        ".option norvc\n\t"
        ".option norelax\n\t"
        "j start\n\t"
<#list 1..<vectors as number>
        "<#if tables == "jumps">j<#else>.word</#if> ${serving(number)}\n\t"
</#list>
        ".option pop");
}

/* An interrupt that nobody asked for: stop, and let a watchdog bite. */
void unexpected(void)
{
    for (;;) {
    }
}

/* First values go to RAM, the rest of it becomes zero. */
__attribute__((naked, noreturn)) void start(void)
{
    __asm__ volatile(
        ".option push\n\t"
        ".option norelax\n\t"
        ".option arch, +zicsr\n\t"
        "lui gp, %hi(__global_pointer$)\n\t"
        "addi gp, gp, %lo(__global_pointer$)\n\t"
        "lui a0, %hi(link_stack_top)\n\t"
        "addi sp, a0, %lo(link_stack_top)\n\t"
        "lui a0, %hi(vectors)\n\t"
        "addi a0, a0, %lo(vectors)\n\t"
<#if tables == "jumps">
        "ori a0, a0, 1\n\t"
<#else>
        "csrw 0x307, a0\n\t"
        "ori a0, a0, 3\n\t"
</#if>
        "csrw mtvec, a0\n\t"
        "lui a0, %hi(link_data_start)\n\t"
        "addi a0, a0, %lo(link_data_start)\n\t"
        "lui a1, %hi(link_data_end)\n\t"
        "addi a1, a1, %lo(link_data_end)\n\t"
        "lui a2, %hi(link_data_load)\n\t"
        "addi a2, a2, %lo(link_data_load)\n\t"
        "j 2f\n"
        "1:\n\t"
        "lw a3, 0(a2)\n\t"
        "sw a3, 0(a0)\n\t"
        "addi a2, a2, 4\n\t"
        "addi a0, a0, 4\n"
        "2:\n\t"
        "bne a0, a1, 1b\n\t"
        "lui a1, %hi(link_bss_end)\n\t"
        "addi a1, a1, %lo(link_bss_end)\n\t"
        "j 4f\n"
        "3:\n\t"
        "sw zero, 0(a0)\n\t"
        "addi a0, a0, 4\n"
        "4:\n\t"
        "bne a0, a1, 3b\n\t"
        ".option norvc\n\t"
        "j main\n\t"
        ".option pop");
}
