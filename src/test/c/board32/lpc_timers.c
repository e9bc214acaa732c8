/*
 * What makes a tone in the LPC800 series, with one match and one output: the state configurable timer, UM10601
 * 10.6, UM10800 16.6, UM11029 alike, as one counter of 32 bits in its first state; and the CTIMER of the LPC80x,
 * UM11045, from the maker's register description.
 */
#include "lpc.h"

enum { CONFIG = 0x000, CTRL = 0x004, LIMIT = 0x008, RES = 0x058, MATCH0 = 0x100, MATCHREL0 = 0x200,
       EV0_STATE = 0x300, EV0_CTRL = 0x304, OUT0_SET = 0x500, OUT0_CLR = 0x504, SCT_BYTES = 0x600 };
enum { UNIFY = 1, CLKMODE = 6, STOPS = 2, HALTS = 4, CLRCTR = 8, BIDIR = 16, BY_MATCH = 0x1000, COMBINED = 0x3000 };

struct sct {
    uint32_t words[SCT_BYTES / 4];
    bool high;
    double match_at;
};

static void sct_reset(struct device *device)
{
    struct sct *sct = device->state;

    sct->words[CTRL / 4] = HALTS | HALTS << 16;
    sct->words[CONFIG / 4] = 0x7E00;
}

static uint32_t sct_word(const struct device *device, uint32_t offset)
{
    return ((const struct sct *)device->state)->words[offset / 4];
}

static bool sct_runs(const struct device *device)
{
    return (sct_word(device, CTRL) & (HALTS | STOPS)) == 0;
}

static double sct_period(const struct device *device)
{
    uint32_t prescaler = (sct_word(device, CTRL) >> 5 & 0xFF) + 1;

    return lpc_cycles(device, LPC_SCT, prescaler * (sct_word(device, MATCH0) + 1.0));
}

static void sct_control(struct device *device, uint32_t value)
{
    struct sct *sct = device->state;
    bool ran = sct_runs(device);

    if ((value & CLRCTR) != 0 && ran) {
        machine_complain("the counter is cleared while it runs", device->base + CTRL);
    }
    if ((value & BIDIR) != 0 || ((value & HALTS) == 0 && (sct_word(device, CONFIG) & (UNIFY | CLKMODE)) != UNIFY)) {
        machine_complain("a mode of the timer that has no model", device->base + CTRL);
    }
    sct->words[CTRL / 4] = value & ~(uint32_t)CLRCTR;
    if (!ran && sct_runs(device)) {
        sct->match_at = (double)machine_cycle() + sct_period(device);
    }
}

/* "Writing to the match register is only allowed when the counter is halted"; the mode too. */
static void sct_write(struct device *device, uint32_t offset, uint32_t value)
{
    struct sct *sct = device->state;
    bool at_rest = offset == CONFIG || offset == MATCH0 || offset == EV0_CTRL || offset == EV0_STATE;

    if (offset == CTRL) {
        sct_control(device, value);
        return;
    }
    if (offset >= SCT_BYTES || (at_rest && (sct_word(device, CTRL) & HALTS) == 0)) {
        machine_complain("a register of the timer is written that cannot be while it runs", device->base + offset);
        return;
    }
    sct->words[offset / 4] = value;
}

static uint32_t sct_read(struct device *device, uint32_t offset)
{
    return offset < SCT_BYTES ? sct_word(device, offset) : 0;
}

static uint64_t sct_due(const struct device *device)
{
    return sct_runs(device) ? (uint64_t)((const struct sct *)device->state)->match_at : NEVER;
}

/* An event that sets and clears at once does what RES says: 3 is the other side. */
static void sct_event(struct device *device)
{
    struct sct *sct = device->state;
    bool sets = (sct_word(device, OUT0_SET) & 1) != 0, clears = (sct_word(device, OUT0_CLR) & 1) != 0;
    unsigned both = sct_word(device, RES) & 3;

    if (sets && clears) {
        sct->high = both == 0 ? sct->high : both == 3 ? !sct->high : both == 1;
    } else if (sets || clears) {
        sct->high = sets;
    }
}

static void sct_step(struct device *device)
{
    struct sct *sct = device->state;

    if ((sct_word(device, EV0_CTRL) & (COMBINED | 15)) == BY_MATCH && (sct_word(device, EV0_STATE) & 1) != 0) {
        sct_event(device);
        if ((sct_word(device, LIMIT) & 1) != 0) {
            sct->words[MATCH0 / 4] = sct_word(device, MATCHREL0);
            sct->match_at += sct_period(device);
            return;
        }
    }
    sct->match_at += lpc_cycles(device, LPC_SCT, 4294967296.0);
}

static bool sct_drives(const struct device *device, const char *signal, bool *high)
{
    (void)signal;
    *high = ((const struct sct *)device->state)->high;
    return true;
}

const struct model lpc_sct_model = {
    .kind = "lpc_sct", .state_bytes = sizeof(struct sct), .reset = sct_reset, .read = sct_read,
    .write = sct_write, .due = sct_due, .step = sct_step, .drives = sct_drives};

enum { TCR = 0x04, PR = 0x0C, MCR = 0x14, MR0 = 0x18, EMR = 0x3C };
enum { CEN = 1, CRST = 2, MR0R = 2, EM0 = 1, EMC0 = 0x30 };

struct ctimer {
    uint32_t words[0x80 / 4];
    uint64_t match_at;
};

static uint32_t ctimer_word(const struct device *device, uint32_t offset)
{
    return ((const struct ctimer *)device->state)->words[offset / 4 & 31];
}

static uint64_t ctimer_period(const struct device *device)
{
    return (ctimer_word(device, PR) + UINT64_C(1)) * (ctimer_word(device, MR0) + UINT64_C(1));
}

static void ctimer_write(struct device *device, uint32_t offset, uint32_t value)
{
    struct ctimer *ctimer = device->state;
    bool ran = (ctimer_word(device, TCR) & (CEN | CRST)) == CEN;

    if (offset != TCR && offset != PR && offset != MCR && offset != MR0 && offset != EMR) {
        machine_complain("a register of the timer that has no model", device->base + offset);
        return;
    }
    ctimer->words[offset / 4] = value;
    if (offset == TCR && !ran) {
        ctimer->match_at = machine_cycle() + ctimer_period(device);
    }
}

static uint32_t ctimer_read(struct device *device, uint32_t offset)
{
    return ctimer_word(device, offset);
}

static uint64_t ctimer_due(const struct device *device)
{
    bool runs = (ctimer_word(device, TCR) & (CEN | CRST)) == CEN;

    return runs ? ((const struct ctimer *)device->state)->match_at : NEVER;
}

/* EMC0: nothing, clear, set, or the other side. */
static void ctimer_step(struct device *device)
{
    struct ctimer *ctimer = device->state;
    uint32_t *external = &ctimer->words[EMR / 4];
    bool restarts = (ctimer_word(device, MCR) & MR0R) != 0;

    switch ((*external & EMC0) >> 4) {
    case 1:
        *external &= ~(uint32_t)EM0;
        break;
    case 2:
        *external |= EM0;
        break;
    case 3:
        *external ^= EM0;
        break;
    default:
        break;
    }
    ctimer->match_at += restarts ? ctimer_period(device) : UINT64_C(1) << 32;
}

static bool ctimer_drives(const struct device *device, const char *signal, bool *high)
{
    (void)signal;
    *high = (ctimer_word(device, EMR) & EM0) != 0;
    return true;
}

const struct model lpc_ctimer_model = {
    .kind = "lpc_ctimer", .state_bytes = sizeof(struct ctimer), .read = ctimer_read,
    .write = ctimer_write, .due = ctimer_due, .step = ctimer_step, .drives = ctimer_drives};
