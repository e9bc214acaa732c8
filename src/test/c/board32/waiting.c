#include "waiting.h"

#include <string.h>

#include "machine.h"

#define REGISTERS_MOST 32

/* Loops that count are looked at ever more seldom. */
static uint32_t place, values[REGISTERS_MOST];
static uint64_t since, patience = 4, turns;
static bool valid;

void waiting_effect(void)
{
    valid = false;
    patience = 4;
    turns = 0;
}

static void read_all(uc_engine *uc, const struct instruction_set *set, uint32_t *into)
{
    for (unsigned i = 0; i < set->register_count; i++) {
        into[i] = core_register(uc, set->registers[i]);
    }
}

static void remember(uc_engine *uc, const struct instruction_set *set, uint32_t address)
{
    place = address;
    since = machine_cycle();
    read_all(uc, set, values);
    valid = true;
}

static void skip(uint64_t until)
{
    uint64_t turn = machine_cycle() - since;
    uint64_t next = machine_due() < until ? machine_due() : until;

    if (!board_is_calm() || turn == 0) {
        return;
    }
    if (next > machine_cycle() + turn) {
        machine_pass((next - 1 - machine_cycle()) / turn * turn);
    }
}

void waiting_turn(uc_engine *uc, const struct instruction_set *set, uint32_t address, uint64_t until)
{
    uint32_t now[REGISTERS_MOST];

    if (machine_moves() || machine_due() <= machine_cycle()) {
        waiting_effect();
        return;
    }
    if (valid && place == address) {
        read_all(uc, set, now);
        valid = false;
        if (memcmp(now, values, set->register_count * sizeof now[0]) == 0) {
            skip(until);
        } else if (patience < 4096) {
            patience *= 2;
        }
        turns = 0;
    } else if (!valid && ++turns >= patience) {
        remember(uc, set, address);
    } else if (valid && machine_cycle() - since > 100000) {
        valid = false;
    }
}
