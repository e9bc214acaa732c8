<#include "/portable/head.ftl">
<@head about="The first 256 bytes of the flash: makes the rest of it readable."/>
#include <stdint.h>

/*
 * What is built into the part copies these bytes to RAM and runs them there, if the last word is
 * right: RP2040 data sheet, 2.8.1. They set up the flash's interface (2.14 of the registers: XIP_SSI)
 * to read with command 03h, which every serial flash knows, and go where the vectors say.
 *
 * The clock of the flash is half of the core's: 24 MHz at most. Assembled from:
 *
    .syntax unified
    .cpu cortex-m0plus
    .thumb
    ldr r3, ssi
    movs r0, #0
    str r0, [r3, #8]        @ SSIENR: off, so that it can be set up
    movs r1, #2
    str r1, [r3, #20]       @ BAUDR
    ldr r1, frame
    str r1, [r3, #0]        @ CTRLR0: 32 bits in after what goes out
    str r0, [r3, #4]        @ CTRLR1: one frame
    movs r2, #244
    ldr r1, command
    str r1, [r3, r2]        @ SPI_CTRLR0: 8 bits of command 03h, 24 bits of address, on one line
    movs r1, #1
    str r1, [r3, #8]        @ SSIENR: on
    ldr r0, vectors
    ldr r1, vtor
    str r0, [r1]
    ldmia r0!, {r1, r2}     @ where the stack begins, and where the program does
    msr msp, r1
    bx r2
    .balign 4
ssi:
    .word 0x18000000
frame:
    .word 0x001F0300
command:
    .word 0x03000218
vectors:
    .word 0x10000100
vtor:
    .word 0xE000ED08
 */
extern const uint32_t boot_stage[64];
__attribute__((section(".boot"), used)) const uint32_t boot_stage[64] = {
    0x20004B09u, 0x21026098u, 0x49086159u, 0x60586019u, 0x490722F4u,
    0x21015099u, 0x48066099u, 0x60084906u, 0xF381C806u, 0x47108808u,
    0x18000000u, 0x001F0300u, 0x03000218u, 0x10000100u, 0xE000ED08u,
    /* CRC-32 of the 252 bytes before it: 04C11DB7h, from all ones, highest bit first, as it comes out. */
    [63] = 0x5086A7F8u,
};
