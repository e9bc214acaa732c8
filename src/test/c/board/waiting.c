#include "waiting.h"

#include <string.h>

#define REGISTERS 32

/* Where a loop was last seen to turn, and everything that its instructions can change. */
static struct {
    bool valid;
    avr_flashaddr_t at;
    avr_cycle_count_t cycle, next_event;
    uint8_t registers[REGISTERS];
    uint8_t status[8];
} turn;

static avr_flashaddr_t from;

/* Works on registers only, or reads, or branches; from the instruction set manual. */
static bool writes_nothing(unsigned op)
{
    return (op >= 0x0100 && op < 0x8000)      /* register and immediate arithmetic, compare, move */
           || (op & 0xF800) == 0xB000         /* in */
           || (op & 0xFE0F) == 0x9000         /* lds */
           || (op & 0xFD00) == 0x9900         /* sbic, sbis */
           || (op & 0xFC08) == 0xFC00         /* sbrc, sbrs */
           || (op & 0xF800) == 0xF000         /* conditional branches */
           || (op & 0xF000) == 0xC000         /* rjmp */
           || (op & 0xF000) == 0xE000;        /* ldi */
}

void waiting_before(avr_t *avr)
{
    unsigned op = avr->flash[avr->pc] | (unsigned)avr->flash[avr->pc + 1] << 8;

    from = avr->pc;
    if (!writes_nothing(op)) {
        turn.valid = false;
    }
}

/* When the part's next timer will do something. */
static avr_cycle_count_t next_event(const avr_t *avr)
{
    return avr->cycle_timers.timer != NULL ? avr->cycle_timers.timer->when : UINT64_MAX;
}

/* Nothing that an instruction changes has changed, nor what the loop may read: no timer had its turn. */
static bool same_state(const avr_t *avr)
{
    return turn.valid && turn.at == avr->pc && turn.next_event == next_event(avr) &&
           memcmp(turn.registers, avr->data, REGISTERS) == 0 &&
           memcmp(turn.status, avr->sreg, sizeof turn.status) == 0;
}

static void remember(const avr_t *avr)
{
    turn.valid = true;
    turn.at = avr->pc;
    turn.cycle = avr->cycle;
    turn.next_event = next_event(avr);
    memcpy(turn.registers, avr->data, REGISTERS);
    memcpy(turn.status, avr->sreg, sizeof turn.status);
}

void waiting_after(avr_t *avr, avr_cycle_count_t until)
{
    if (avr->pc >= from || avr->interrupt_state != 0) {
        return;
    }
    if (same_state(avr)) {
        avr_cycle_count_t cycles = avr->cycle - turn.cycle;

        if (next_event(avr) < until) {
            until = next_event(avr);
        }
        if (until > avr->cycle + cycles) {
            avr->cycle += (until - 1 - avr->cycle) / cycles * cycles;
        }
    }
    remember(avr);
}

static avr_cycle_count_t wake(avr_t *avr, avr_cycle_count_t when, void *unused)
{
    (void)avr;
    (void)when;
    (void)unused;
    return 0;
}

void waiting_asleep(avr_t *avr, avr_cycle_count_t until)
{
    avr_cycle_timer_register(avr, until > avr->cycle ? until - avr->cycle : 1, wake, NULL);
}
