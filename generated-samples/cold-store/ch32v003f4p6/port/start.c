/* SPDX-License-Identifier: 0BSD */
/*
 * Where the program starts, and where interrupts go.
 *
 * cold-store guard, for CH32V003F4P6. Written by ullage from a loop file: to change
 * a number, change it there and emit again.
 */
/*
 * Each vector is an instruction that jumps to its handler, and mtvec is the
 * table with its lowest bit set: QingKe V2 to V4 processor manuals, 3.2.
 * All jumps and addresses here have a fixed length, whatever lies between.
 */

int main(void);
void vectors(void);
void start(void);
void unexpected(void);

/* The first instruction of the program is the first vector. */
__attribute__((section(".vectors"), naked, used)) void vectors(void)
{
    __asm__ volatile(
        ".option push\n\t"
        ".option norvc\n\t"
        ".option norelax\n\t"
        "j start\n\t"
        "j unexpected\n\t"
        "j unexpected\n\t"
        "j unexpected\n\t"
        "j unexpected\n\t"
        "j unexpected\n\t"
        "j unexpected\n\t"
        "j unexpected\n\t"
        "j unexpected\n\t"
        "j unexpected\n\t"
        "j unexpected\n\t"
        "j unexpected\n\t"
        "j unexpected\n\t"
        "j unexpected\n\t"
        "j unexpected\n\t"
        "j unexpected\n\t"
        "j unexpected\n\t"
        "j unexpected\n\t"
        "j unexpected\n\t"
        "j unexpected\n\t"
        "j unexpected\n\t"
        "j unexpected\n\t"
        "j unexpected\n\t"
        "j unexpected\n\t"
        "j unexpected\n\t"
        "j unexpected\n\t"
        "j unexpected\n\t"
        "j unexpected\n\t"
        "j unexpected\n\t"
        "j unexpected\n\t"
        "j unexpected\n\t"
        "j unexpected\n\t"
        "j unexpected\n\t"
        "j unexpected\n\t"
        "j unexpected\n\t"
        "j unexpected\n\t"
        "j unexpected\n\t"
        "j unexpected\n\t"
        "j unexpected\n\t"
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
        "ori a0, a0, 1\n\t"
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
