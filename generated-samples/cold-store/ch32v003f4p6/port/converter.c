/* SPDX-License-Identifier: 0BSD */
/*
 * Reads the knob.
 *
 * cold-store guard, for CH32V003F4P6. Written by ullage from a loop file: to change
 * a number, change it there and emit again.
 */
#include "port.h"
#include "registers.h"

/* From power-up to the first use: 14 clocks of the converter, and a microsecond; this is more. */
static void wake(void)
{
    uint32_t turns = fixed_u16(430);

    CONVERTER_CONTROL = CONVERTER_ON | CONVERTER_BY_PROGRAM;
    __asm__ volatile("1: addi %0, %0, -1\n\tbnez %0, 1b" : "+r"(turns));
}

/* Calibration in two steps, each of which ends within 100 clocks of the converter. */
static void calibrate(uint32_t step)
{
    uint32_t patience = fixed_u32(BUS_PATIENCE);

    CONVERTER_CONTROL = CONVERTER_ON | CONVERTER_BY_PROGRAM | step;
    while ((CONVERTER_CONTROL & step) != 0 && --patience != 0) {
    }
}

uint16_t port_knob(void)
{
    uint32_t patience = fixed_u32(BUS_PATIENCE);
    uint32_t code;

    CLOCKS_APB2 |= CLOCK_CONVERTER;
    CLOCK_CONFIG = (CLOCK_CONFIG & ~0xC000u) | fixed_u32(KNOB_PRESCALE);
    pin_become(fixed_u8(PIN_KNOB), PIN_ANALOG);
    wake();
    calibrate(CONVERTER_FORGETS);
    calibrate(CONVERTER_CALIBRATES);
    /* The longest sampling time, for a knob of 10 kilohm and more. */
    CONVERTER_SAMPLING = 0x3FFFFFFFu;
    CONVERTER_SEQUENCE = fixed_u8(KNOB_CHANNEL);
    CONVERTER_CONTROL = CONVERTER_ON | CONVERTER_BY_PROGRAM | CONVERTER_START;
    /* A conversion takes 252 clocks of the converter at most. */
    while ((CONVERTER_STATUS & CONVERTER_DONE) == 0 && --patience != 0) {
    }
    code = CONVERTER_RESULT;
    /* One that stays on begins a conversion when it is told so again: RM0008 11.12.3, ADON. */
    CONVERTER_CONTROL = 0;
    return (uint16_t)(code);
}
