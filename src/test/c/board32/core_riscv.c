/*
 * RV32, with the vectors and interrupts of QingKe cores: CH32V003 reference manual (CH32V003RM),
 * section 6, QingKe V3 processor manual, section 3; and with those of Bumblebee: Nuclei "Bumblebee core
 * architecture manual", sections 5 to 7. RISC-V privileged architecture, machine mode. Cycles are a
 * guess: 1, loads and taken branches more, and branches not where a core foretells them. Registers are not pushed by hardware here, which changes
 * nothing for handlers that save what they use; where a QingKe core does so, and where to, is left out.
 */
#include <string.h>

#include "core.h"
#include "eclic.h"
#include "machine.h"
#include "pfic.h"

static const int registers[] = {
    UC_RISCV_REG_X1, UC_RISCV_REG_X2, UC_RISCV_REG_X3, UC_RISCV_REG_X4,
    UC_RISCV_REG_X5, UC_RISCV_REG_X6, UC_RISCV_REG_X7, UC_RISCV_REG_X8,
    UC_RISCV_REG_X9, UC_RISCV_REG_X10, UC_RISCV_REG_X11, UC_RISCV_REG_X12,
    UC_RISCV_REG_X13, UC_RISCV_REG_X14, UC_RISCV_REG_X15, UC_RISCV_REG_X16,
    UC_RISCV_REG_X17, UC_RISCV_REG_X18, UC_RISCV_REG_X19, UC_RISCV_REG_X20,
    UC_RISCV_REG_X21, UC_RISCV_REG_X22, UC_RISCV_REG_X23, UC_RISCV_REG_X24,
    UC_RISCV_REG_X25, UC_RISCV_REG_X26, UC_RISCV_REG_X27, UC_RISCV_REG_X28,
    UC_RISCV_REG_X29, UC_RISCV_REG_X30, UC_RISCV_REG_X31,
};
#define REGISTER_COUNT (sizeof registers / sizeof registers[0])

#define MIE (1u << 3)
#define MPIE (1u << 7)
#define MPP (3u << 11)
#define MTVEC 0x305
#define INTSYSCR 0x804
/* Of INTSYSCR: hardware pushes registers, and handlers nest: CH32V003RM, 6.5.2.5. */
#define STACKING 1u
#define NESTING 2u
#define MRET 0x30200073
#define CUSTOM_FIRST 0x7C0
#define CUSTOM_LAST 0xBFF

/* Table of addresses, and a vector for each interrupt: CH32V003RM, 6.5.2.6, MTVEC. */
enum { BY_NUMBER = 1, ADDRESSES = 2 };

/* Of Bumblebee: the table of vectors; its core's mode is in mtvec. */
#define MTVT 0x307
#define MTVEC_MODE 0x3Fu
#define MTVEC_ECLIC 3u
/* For 65 to 128 interrupts the table is aligned to 512 bytes: "Bumblebee core architecture manual", mtvt. */
#define MTVT_ALIGNED 0x1FFu

static uint32_t mtvec, mtvt;

static bool is_short(uint32_t op)
{
    return (op & 3) != 3;
}

static bool is_load(uint32_t op)
{
    return is_short(op) ? (op & 0xE003) == 0x4000 || (op & 0xE003) == 0x4002 : (op & 0x7F) == 0x03;
}

static unsigned cycles(uint32_t op, bool taken)
{
    return 1 + (is_load(op) ? 1 : 0) + (taken ? 2 : 0);
}

/* Branches that are foretold cost no more, jumps one more. */
static unsigned foretold_cycles(uint32_t op, bool taken)
{
    bool branch = is_short(op) ? (op & 0xC003) == 0xC001 : (op & 0x7F) == 0x63;

    return 1 + (is_load(op) ? 1 : 0) + (taken && !branch ? 1 : 0);
}

/* Writes x2. */
static bool may_move_stack(uint32_t op)
{
    return is_short(op) ? (op >> 7 & 31) == 2 : (op >> 7 & 31) == 2 && (op & 0x7F) != 0x23;
}

static bool is_wait(uint32_t op)
{
    return op == 0x10500073;
}

static bool for_event(uint32_t op)
{
    (void)op;
    return pfic_waits_for_event();
}

/* Bumblebee waits as its register WFE says, which has no model. */
static bool no_event(uint32_t op)
{
    (void)op;
    return false;
}

static bool not_deep(void)
{
    return false;
}

static uint32_t start_at(uint32_t pc)
{
    return pc;
}

static void reset(uc_engine *uc)
{
    mtvec = mtvt = 0;
    core_set_register(uc, UC_RISCV_REG_MSTATUS, MPP);
    core_set_register(uc, UC_RISCV_REG_PC, machine_boots_from_alias() ? 0 : machine_flash_base());
}

static bool masked(uc_engine *uc)
{
    return (core_register(uc, UC_RISCV_REG_MSTATUS) & MIE) == 0;
}

static uint32_t word(uint32_t address)
{
    uint32_t value = 0;

    if (core_memory(address, 4) != NULL) {
        memcpy(&value, core_memory(address, 4), 4);
    }
    return value;
}

static void enter_at(uc_engine *uc, int interrupt, uint32_t handler)
{
    uint32_t status = core_register(uc, UC_RISCV_REG_MSTATUS) & ~(MIE | MPIE | MPP);

    core_set_register(uc, UC_RISCV_REG_MEPC, core_register(uc, UC_RISCV_REG_PC));
    core_set_register(uc, UC_RISCV_REG_MCAUSE, 0x80000000u | (uint32_t)interrupt);
    core_set_register(uc, UC_RISCV_REG_MSTATUS, status | MPIE | MPP);
    core_set_register(uc, UC_RISCV_REG_PC, handler);
    machine_pass(6);
}

static void enter(uc_engine *uc, int interrupt)
{
    uint32_t place = (mtvec & ~3u) + ((mtvec & BY_NUMBER) != 0 ? 4 * (uint32_t)interrupt : 0);

    pfic_entered(interrupt);
    enter_at(uc, interrupt, (mtvec & ADDRESSES) != 0 ? word(place) : place);
}

/* Only what is vectored, in the mode for it, has a model. */
static void bumblebee_enter(uc_engine *uc, int interrupt)
{
    if ((mtvec & MTVEC_MODE) != MTVEC_ECLIC || !eclic_is_vectored(interrupt)) {
        machine_complain("an interrupt that is not vectored has no model", (uint32_t)interrupt);
    }
    eclic_entered(interrupt);
    enter_at(uc, interrupt, word(mtvt + 4 * (uint32_t)interrupt));
}

static bool leave(uc_engine *uc)
{
    (void)uc;
    return false;
}

/* RV32E has registers up to x15; a program for it that was built for more would write further ones. */
static void end(uc_engine *uc)
{
    for (int which = UC_RISCV_REG_X16; which <= UC_RISCV_REG_X31; which++) {
        if (core_register(uc, which) != 0) {
            machine_complain("a register was used that the core has not",
                             (uint32_t)(which - UC_RISCV_REG_X0));
        }
    }
}

static void no_end(uc_engine *uc)
{
    (void)uc;
}

/* mret, and registers that this chip has and the emulator has not, or has otherwise. */
static bool is_own(uint32_t op)
{
    unsigned csr = op >> 20;

    if (op == MRET) {
        return true;
    }
    return (op & 0x7F) == 0x73 && (op & 0x7000) != 0 &&
           (csr == MTVEC || (csr >= CUSTOM_FIRST && csr <= CUSTOM_LAST));
}

static bool bumblebee_is_own(uint32_t op)
{
    return is_own(op) || ((op & 0x7F) == 0x73 && (op & 0x7000) != 0 && op >> 20 == MTVT);
}

static void return_from_handler(uc_engine *uc)
{
    uint32_t status = core_register(uc, UC_RISCV_REG_MSTATUS);

    core_set_register(uc, UC_RISCV_REG_MSTATUS,
                      (status & ~MIE) | ((status & MPIE) != 0 ? MIE : 0) | MPIE);
    core_set_register(uc, UC_RISCV_REG_PC, core_register(uc, UC_RISCV_REG_MEPC));
}

/* What an instruction writes to a register of the system: a register or five bits. */
static uint32_t written(uc_engine *uc, uint32_t op)
{
    unsigned source = op >> 15 & 31;

    return (op & 0x4000) != 0 ? source : core_register(uc, UC_RISCV_REG_X0 + (int)source);
}

static bool own(uc_engine *uc, uint32_t op)
{
    if (op == MRET) {
        return_from_handler(uc);
        return true;
    }
    if (op >> 20 == MTVEC) {
        mtvec = written(uc, op);
    } else if (op >> 20 == INTSYSCR && (written(uc, op) & (STACKING | NESTING)) != 0) {
        machine_complain("hardware stacking or nesting is switched on, which has no model",
                         core_register(uc, UC_RISCV_REG_PC));
    }
    core_set_register(uc, UC_RISCV_REG_PC, core_register(uc, UC_RISCV_REG_PC) + 4);
    return false;
}

static bool bumblebee_own(uc_engine *uc, uint32_t op)
{
    if (op != MRET && op >> 20 == MTVT) {
        mtvt = written(uc, op);
        if ((mtvt & MTVT_ALIGNED) != 0) {
            machine_complain("the table of vectors is not aligned", mtvt);
        }
    }
    return own(uc, op);
}

#define COMMON                                                                                       \
    .arch = UC_ARCH_RISCV, .mode = UC_MODE_RISCV32, .model = UC_CPU_RISCV32_BASE32,                  \
    .pc = UC_RISCV_REG_PC, .sp = UC_RISCV_REG_X2, .registers = registers,                            \
    .register_count = REGISTER_COUNT, .may_move_stack = may_move_stack,                              \
    .is_wait = is_wait, .start_at = start_at, .reset = reset, .masked = masked, .leave = leave
#define QINGKE .for_event = for_event, .deep = pfic_sleeps_deep, .pending = pfic_pending, .enter = enter, .is_own = is_own, .own = own, COMMON

const struct instruction_set rv32ec = {
    .core = "rv32ec", .cycles = cycles, .end = end, QINGKE};
const struct instruction_set rv32imac = {
    .core = "rv32imac", .cycles = foretold_cycles, .end = no_end, QINGKE};
const struct instruction_set bumblebee = {.core = "bumblebee",
                                          .cycles = foretold_cycles,
                                          .pending = eclic_pending,
                                          .for_event = no_event,
                                          .deep = not_deep,
                                          .enter = bumblebee_enter,
                                          .is_own = bumblebee_is_own,
                                          .own = bumblebee_own,
                                          .end = no_end,
                                          COMMON};
