/*
 * The core, on Unicorn, an instruction at a time. Cycles are counted by simple weights: memory and
 * taken branches cost more; so times are near, not exact. Exceptions are entered and left here.
 */
#ifndef CORE_H
#define CORE_H

#include <stdbool.h>
#include <stdint.h>

#include <unicorn/unicorn.h>

#include "memory.h"

/* What differs between instruction sets. */
struct instruction_set {
    const char *core;
    uc_arch arch;
    uc_mode mode;
    int model;
    int pc, sp;
    /* All registers that a program computes with, and what it compares by. */
    const int *registers;
    unsigned register_count;
    /* Cycles of an instruction; `taken`: what follows is not the next one. */
    unsigned (*cycles)(uint32_t op, bool taken);
    bool (*may_move_stack)(uint32_t op);
    bool (*is_wait)(uint32_t op);
    /* Of such an instruction: whether an event ends it, and whether the clock stops meanwhile. */
    bool (*for_event)(uint32_t op);
    bool (*deep)(void);
    /* Where the program counter points for uc_emu_start. */
    uint32_t (*start_at)(uint32_t pc);
    void (*reset)(uc_engine *);
    /* The number of an interrupt that wants in, or -1. */
    int (*pending)(void);
    bool (*masked)(uc_engine *);
    void (*enter)(uc_engine *, int interrupt);
    /* After the emulation stopped by itself: true where it was the end of a handler. */
    bool (*leave)(uc_engine *);
    /* Whether the instruction is one that is done here; does it: true where it ends a handler. */
    bool (*is_own)(uint32_t op);
    bool (*own)(uc_engine *, uint32_t op);
    /* Looks once more at the end. */
    void (*end)(uc_engine *);
};

extern const struct instruction_set cortex_m0, cortex_m0plus, cortex_m3, rv32ec, rv32imac, bumblebee;

void core_begin(const char *elf, uint32_t flash_bytes, uint32_t ram_bytes);
void core_reset(void);

/* Goes on until something moves on the board, or until this time in ns; false where it has crashed. */
bool core_run(uint64_t until);

/* What is to be looked at when all is over. */
void core_end(void);

/* The most bytes of stack in use since the power-up. */
unsigned core_stack(void);

/* How often it went to sleep. */
unsigned core_naps(bool deep);

uint32_t core_register(uc_engine *, int which);
void core_set_register(uc_engine *, int which, uint32_t value);

/* Does what is to be done on the board when a line or an output may have moved. */
void board_step(void);
bool board_is_calm(void);

#endif
