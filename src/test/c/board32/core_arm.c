/*
 * ARMv6-M and ARMv7-M. Cycles: ARM DDI 0432C (Cortex-M0), DDI 0484C (Cortex-M0+) and DDI 0337E
 * (Cortex-M3), tables of instruction cycles, without wait states; where a core may refill its pipeline
 * in one to three cycles, it takes one, as a fast core is the harder one for a bus that is timed by
 * instructions. Exceptions: ARM DDI 0419E (ARMv6-M), B1.5.6 to B1.5.8. All interrupts have one priority
 * here: none nests.
 */
#include <string.h>

#include "core.h"
#include "machine.h"
#include "nvic.h"

static const int registers[] = {UC_ARM_REG_R0,  UC_ARM_REG_R1,  UC_ARM_REG_R2,  UC_ARM_REG_R3,
                                UC_ARM_REG_R4,  UC_ARM_REG_R5,  UC_ARM_REG_R6,  UC_ARM_REG_R7,
                                UC_ARM_REG_R8,  UC_ARM_REG_R9,  UC_ARM_REG_R10, UC_ARM_REG_R11,
                                UC_ARM_REG_R12, UC_ARM_REG_SP,  UC_ARM_REG_LR,  UC_ARM_REG_XPSR};
#define REGISTER_COUNT (sizeof registers / sizeof registers[0])

#define FRAME_BYTES 32
#define ALIGNED (1u << 9)
#define TO_THREAD 0xFFFFFFF9u
#define HANDLER_CYCLES 16
#define STAGE_BYTES 256

static bool is_long(uint32_t op)
{
    return (op & 0xF800) >= 0xE800;
}

/* `refill`: what comes to an instruction that is followed by another than the next one. */
static unsigned counted(uint32_t op, bool taken, unsigned refill, unsigned long_cycles)
{
    unsigned low = op & 0xFFFF;

    if (is_long(op)) {
        return (low & 0xF800) == 0xF000 && taken ? 2 + refill : long_cycles;
    }
    if ((low & 0xF600) == 0xB400) { /* push, pop */
        return 1 + (unsigned)__builtin_popcount(low & 0x1FF) + (taken ? refill + 1 : 0);
    }
    if ((low & 0xF000) == 0xC000) { /* ldm, stm */
        return 1 + (unsigned)__builtin_popcount(low & 0xFF);
    }
    if (taken) {
        return 1 + refill;
    }
    return low >= 0x4800 && low < 0xA000 ? 2 : 1; /* loads and stores */
}

static unsigned m0_cycles(uint32_t op, bool taken)
{
    return counted(op, taken, 2, 2);
}

static unsigned m0plus_cycles(uint32_t op, bool taken)
{
    return counted(op, taken, 1, 2);
}

/* Long instructions that compute take one cycle; loads and stores are not told apart from them. */
static unsigned m3_cycles(uint32_t op, bool taken)
{
    return counted(op, taken, 1, 1);
}

static bool may_move_stack(uint32_t op)
{
    unsigned low = op & 0xFFFF;

    return is_long(op) || (low & 0xFE00) == 0xB400 || (low & 0xFF80) == 0xB080 ||
           (low & 0xFF87) == 0x4685 || (low & 0xFF87) == 0x4485;
}

static bool for_event(uint32_t op)
{
    return (op & 0xFFFF) == 0xBF20;
}

static bool is_wait(uint32_t op)
{
    return (op & 0xFFFF) == 0xBF30 || for_event(op);
}

static uint32_t start_at(uint32_t pc)
{
    return pc | 1;
}

static uint32_t word(uint32_t address)
{
    uint32_t value = 0;
    const uint8_t *memory = core_memory(address, 4);

    if (memory != NULL) {
        memcpy(&value, memory, 4);
    }
    return value;
}

static void put(uint32_t address, uint32_t value)
{
    uint8_t *memory = core_memory(address, 4);

    if (memory == NULL) {
        machine_complain("the stack has left RAM", address);
    } else {
        memcpy(memory, &value, 4);
    }
}

/* CRC-32 of the boot stage, whose last word it is: RP2040 data sheet, 2.8.1.3.1. */
static bool is_sound(const uint8_t *stage)
{
    uint32_t crc = 0xFFFFFFFF;

    for (unsigned i = 0; i < STAGE_BYTES - 4; i++) {
        crc ^= (uint32_t)stage[i] << 24;
        for (unsigned bit = 0; bit < 8; bit++) {
            crc = (crc & 0x80000000) != 0 ? crc << 1 ^ 0x04C11DB7 : crc << 1;
        }
    }
    return memcmp(stage + STAGE_BYTES - 4, &crc, 4) == 0;
}

/* What is built into the part copies the stage to RAM and runs it there, if it is sound. */
static void run_stage(uc_engine *uc)
{
    const uint8_t *stage = core_memory(machine_flash_base(), STAGE_BYTES);

    if (!is_sound(stage)) {
        machine_complain("the boot stage's checksum is wrong", machine_flash_base());
        return;
    }
    memcpy(core_memory(machine_boot_stage(), STAGE_BYTES), stage, STAGE_BYTES);
    core_set_register(uc, UC_ARM_REG_SP, word(machine_flash_base() + STAGE_BYTES));
    core_set_register(uc, UC_ARM_REG_PC, machine_boot_stage());
}

/* UM10601 22.3.3, "Criterion for valid user code"; the same in all of the LPC800 series. */
static void check_vectors(void)
{
    uint32_t sum = 0;

    for (uint32_t i = 0; i < 8; i++) {
        sum += word(machine_flash_base() + 4 * i);
    }
    if (sum != 0) {
        machine_complain("the first eight vectors do not add up to zero", machine_flash_base());
    }
}

static void reset(uc_engine *uc)
{
    if (machine_sums_vectors()) {
        check_vectors();
    }
    core_set_register(uc, UC_ARM_REG_PRIMASK, 0);
    core_set_register(uc, UC_ARM_REG_XPSR, 1u << 24);
    if (machine_boot_stage() != 0) {
        run_stage(uc);
        return;
    }
    core_set_register(uc, UC_ARM_REG_SP, word(machine_flash_base()));
    core_set_register(uc, UC_ARM_REG_PC, word(machine_flash_base() + 4) & ~1u);
}

static bool masked(uc_engine *uc)
{
    return (core_register(uc, UC_ARM_REG_PRIMASK) & 1) != 0;
}

static const int framed[] = {UC_ARM_REG_R0,  UC_ARM_REG_R1, UC_ARM_REG_R2, UC_ARM_REG_R3,
                             UC_ARM_REG_R12, UC_ARM_REG_LR, UC_ARM_REG_PC, UC_ARM_REG_XPSR};

static void enter(uc_engine *uc, int interrupt)
{
    uint32_t old = core_register(uc, UC_ARM_REG_SP);
    uint32_t sp = (old - FRAME_BYTES) & ~7u;

    for (unsigned i = 0; i < 8; i++) {
        uint32_t value = core_register(uc, framed[i]);

        put(sp + 4 * i, i == 7 && (old & 4) != 0 ? value | ALIGNED : value);
    }
    nvic_entered(interrupt);
    core_set_register(uc, UC_ARM_REG_SP, sp);
    core_set_register(uc, UC_ARM_REG_LR, TO_THREAD);
    core_set_register(uc, UC_ARM_REG_PC, word(nvic_table() + 4 * (uint32_t)interrupt) & ~1u);
    machine_pass(HANDLER_CYCLES);
}

static bool leave(uc_engine *uc)
{
    uint32_t sp = core_register(uc, UC_ARM_REG_SP);

    if ((core_register(uc, UC_ARM_REG_PC) | 1) != TO_THREAD) {
        return false;
    }
    for (unsigned i = 0; i < 8; i++) {
        core_set_register(uc, framed[i], word(sp + 4 * i) & (i == 7 ? ~ALIGNED : ~0u));
    }
    core_set_register(uc, UC_ARM_REG_SP,
                      sp + FRAME_BYTES + ((word(sp + 28) & ALIGNED) != 0 ? 4 : 0));
    machine_pass(HANDLER_CYCLES);
    return true;
}

/* SEV, an event that the program makes: B1.5.18. */
static bool is_own(uint32_t op)
{
    return (op & 0xFFFF) == 0xBF40;
}

static bool own(uc_engine *uc, uint32_t op)
{
    (void)op;
    machine_event();
    core_set_register(uc, UC_ARM_REG_PC, core_register(uc, UC_ARM_REG_PC) + 2);
    return false;
}

static void end(uc_engine *uc)
{
    (void)uc;
}

#define COMMON                                                                                       \
    .arch = UC_ARCH_ARM, .mode = UC_MODE_THUMB | UC_MODE_MCLASS, .pc = UC_ARM_REG_PC,                \
    .sp = UC_ARM_REG_SP, .registers = registers, .register_count = REGISTER_COUNT,                    \
    .may_move_stack = may_move_stack, .is_wait = is_wait, .for_event = for_event, .deep = nvic_sleeps_deep, .start_at = start_at, .reset = reset,      \
    .pending = nvic_pending, .masked = masked, .enter = enter, .leave = leave, .is_own = is_own,     \
    .own = own, .end = end

const struct instruction_set cortex_m0 = {
    .core = "cortex-m0", .model = UC_CPU_ARM_CORTEX_M0, .cycles = m0_cycles, COMMON};
const struct instruction_set cortex_m0plus = {
    .core = "cortex-m0plus", .model = UC_CPU_ARM_CORTEX_M0, .cycles = m0plus_cycles, COMMON};
const struct instruction_set cortex_m3 = {
    .core = "cortex-m3", .model = UC_CPU_ARM_CORTEX_M3, .cycles = m3_cycles, COMMON};
