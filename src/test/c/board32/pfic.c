/*
 * PFIC and system tick of QingKe cores: CH32V003 reference manual, 6.5 and 6.5.3 (STK). Priorities
 * are left out. The tick of CH32V1 and later counts 64 bits; its upper half stays zero here.
 */
#include "pfic.h"

#include "models.h"

#define WORDS 4

enum { CFGR = 0x048, IENR = 0x100, IRER = 0x180, IPSR = 0x200, IPRR = 0x280 };
/* PFIC_SCTLR: deep, wfi until an event comes, and an event right now. */
enum { SCTLR = 0xD10, SLEEPDEEP = 1u << 2, WFITOWFE = 1u << 3, SETEVENT = 1u << 5 };
#define RESET_KEY 0xBEEF0000u
#define RESET_BIT (1u << 7)

struct pfic {
    uint32_t enabled[WORDS], pended[WORDS], sleep;
};

enum { CTLR = 0x00, SR = 0x04, CNT = 0x08, CMP = 0x10 };
enum { STE = 1u << 0, STIE = 1u << 1, STCLK = 1u << 2, STRE = 1u << 3 };

struct tick {
    uint32_t control, status, compare, count;
    uint64_t counted_at;
};

/* There is one; it is asked at every instruction. */
static struct pfic *pfic;

static void pfic_reset(struct device *device)
{
    pfic = device->state;
}

static bool bit(const uint32_t *words, int n)
{
    return (words[n / 32] >> (n % 32) & 1) != 0;
}

int pfic_pending(void)
{
    for (int i = 0; i < 32 * WORDS; i++) {
        if (bit(pfic->enabled, i) && (bit(pfic->pended, i) || machine_asks(i))) {
            return i;
        }
    }
    return -1;
}

void pfic_entered(int interrupt)
{
    pfic->pended[interrupt / 32] &= ~(1u << (interrupt % 32));
}

static uint32_t pfic_read(struct device *device, uint32_t offset)
{
    (void)device;
    if (offset == SCTLR) {
        return pfic->sleep;
    }
    return offset < 4 * WORDS ? pfic->enabled[offset / 4] : 0;
}

static void pfic_write(struct device *device, uint32_t offset, uint32_t value)
{
    unsigned word = (offset & 0x7F) / 4;

    (void)device;
    if (offset == CFGR && (value & 0xFFFF0000u) == RESET_KEY && (value & RESET_BIT) != 0) {
        machine_ask_reset();
    }
    if (offset == SCTLR) {
        pfic->sleep = value;
        if ((value & SETEVENT) != 0) {
            machine_event();
        }
        return;
    }
    if (word >= WORDS) {
        return;
    }
    switch (offset & ~0x7Fu) {
    case IENR:
        pfic->enabled[word] |= value;
        break;
    case IRER:
        pfic->enabled[word] &= ~value;
        break;
    case IPSR:
        pfic->pended[word] |= value;
        break;
    case IPRR:
        pfic->pended[word] &= ~value;
        break;
    default:
        break;
    }
}

bool pfic_sleeps_deep(void)
{
    return (pfic->sleep & SLEEPDEEP) != 0;
}

bool pfic_waits_for_event(void)
{
    return (pfic->sleep & WFITOWFE) != 0;
}

static unsigned divider(const struct tick *tick)
{
    return (tick->control & STCLK) != 0 ? 1 : 8;
}

static void catch_up(struct tick *tick)
{
    uint64_t counts = (machine_cycle() - tick->counted_at) / divider(tick);

    if ((tick->control & STE) == 0) {
        tick->counted_at = machine_cycle();
        return;
    }
    tick->count += (uint32_t)counts;
    tick->counted_at += counts * divider(tick);
}

static uint64_t tick_due(const struct device *device)
{
    const struct tick *tick = device->state;
    uint32_t left = tick->compare - tick->count;

    if ((tick->control & STE) == 0 || tick->compare == 0) {
        return NEVER;
    }
    /* At the compare value it stays for one count. */
    return tick->counted_at + (left == 0 ? UINT64_C(0x100000000) : left) * divider(tick);
}

/*
 * With STRE it counts from 0 again after the compare value has been reached, which takes a count of
 * its own; so a period is CMP + 1 counts.
 */
static void tick_step(struct device *device)
{
    struct tick *tick = device->state;

    catch_up(tick);
    tick->status |= 1;
    if ((tick->control & STRE) != 0) {
        tick->count = (uint32_t)-1;
    }
}

static uint32_t tick_read(struct device *device, uint32_t offset)
{
    struct tick *tick = device->state;

    catch_up(tick);
    switch (offset) {
    case CTLR:
        return tick->control;
    case SR:
        return tick->status;
    case CNT:
        machine_read_moving();
        return tick->count == (uint32_t)-1 ? tick->compare : tick->count;
    case CMP:
        return tick->compare;
    default:
        return 0;
    }
}

static void tick_write(struct device *device, uint32_t offset, uint32_t value)
{
    struct tick *tick = device->state;

    catch_up(tick);
    if (offset == CTLR) {
        tick->control = value;
        if ((value & 1u << 31) != 0) {
            pfic->pended[0] |= 1u << 14;
        }
    } else if (offset == SR) {
        tick->status = value & 1;
    } else if (offset == CNT) {
        tick->count = value;
        tick->counted_at = machine_cycle();
    } else if (offset == CMP) {
        tick->compare = value;
    }
}

static unsigned tick_asks(const struct device *device)
{
    const struct tick *tick = device->state;

    return (tick->control & STIE) != 0 && tick->status != 0;
}

const struct model pfic_model = {
    .kind = "pfic", .state_bytes = sizeof(struct pfic), .reset = pfic_reset, .read = pfic_read,
    .write = pfic_write};
const struct model qingke_tick_model = {
    .kind = "qingke_tick", .state_bytes = sizeof(struct tick), .read = tick_read, .write = tick_write,
    .due = tick_due, .step = tick_step, .asks = tick_asks};
