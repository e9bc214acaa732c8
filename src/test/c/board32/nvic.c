/*
 * NVIC, SysTick and what is needed of the system control block: ARM DDI 0419E (ARMv6-M), B3.2 to
 * B3.4. Priorities are kept, not used.
 */
#include "nvic.h"

#include "models.h"

#define FIRST 16
#define SYSTICK 15

enum { ISER = 0x000, ICER = 0x080, ISPR = 0x100, ICPR = 0x180 };

#define WORDS 2

struct nvic {
    uint32_t enabled[WORDS], pended[WORDS];
};

enum { CSR = 0x0, RVR = 0x4, CVR = 0x8 };
enum { ENABLE = 1u << 0, TICKINT = 1u << 1, CLKSOURCE = 1u << 2, COUNTFLAG = 1u << 16 };

struct systick {
    uint32_t csr, reload, by;
    bool pending;
    /* When the count becomes zero next, while it runs. */
    uint64_t zero_at;
};

enum { VTOR = 0x08, AIRCR = 0x0C, SCR = 0x10, SLEEPDEEP = 1u << 2, SEVONPEND = 1u << 4 };

struct scb {
    uint32_t vtor, control;
};

/* There is one of each; they are asked at every instruction. */
static struct nvic *nvic;
static struct systick *systick;
static struct scb *scb;

static void nvic_reset(struct device *device)
{
    nvic = device->state;
}

static void systick_reset(struct device *device)
{
    systick = device->state;
    systick->by = device_option(device, "by", 8);
}

static void scb_reset(struct device *device)
{
    scb = device->state;
}

static bool bit(const uint32_t *words, int n)
{
    return (words[n / 32] >> (n % 32) & 1) != 0;
}

int nvic_pending(void)
{
    if (systick->pending) {
        return SYSTICK;
    }
    for (int i = 0; i < 32 * WORDS; i++) {
        if (bit(nvic->enabled, i) && (bit(nvic->pended, i) || machine_asks(i))) {
            return FIRST + i;
        }
    }
    return -1;
}

void nvic_entered(int exception)
{
    if (exception == SYSTICK) {
        systick->pending = false;
    } else {
        nvic->pended[(exception - FIRST) / 32] &= ~(1u << (exception - FIRST) % 32);
    }
}

uint32_t nvic_table(void)
{
    return scb->vtor == 0 ? machine_flash_base() : scb->vtor;
}

static uint32_t nvic_read(struct device *device, uint32_t offset)
{
    const struct nvic *state = device->state;
    unsigned word = (offset & 0x7F) / 4;

    return offset < ISPR && word < WORDS ? state->enabled[word] : 0;
}

static void nvic_write(struct device *device, uint32_t offset, uint32_t value)
{
    struct nvic *state = device->state;
    unsigned word = (offset & 0x7F) / 4;

    if (word >= WORDS) {
        return;
    }
    switch (offset & ~0x7Fu) {
    case ISER:
        state->enabled[word] |= value;
        break;
    case ICER:
        state->enabled[word] &= ~value;
        break;
    case ISPR:
        state->pended[word] |= value;
        break;
    case ICPR:
        state->pended[word] &= ~value;
        break;
    default:
        break;
    }
}

/* The other source is the core's clock by eight, RM0091, 12.1.2, or by `by`. */
static uint32_t divider(const struct systick *tick)
{
    return (tick->csr & CLKSOURCE) != 0 ? 1 : tick->by;
}

static uint64_t period(const struct systick *tick)
{
    return (tick->reload + UINT64_C(1)) * divider(tick);
}

static void restart(struct systick *tick)
{
    tick->zero_at = machine_cycle() + period(tick);
}

static uint32_t systick_read(struct device *device, uint32_t offset)
{
    struct systick *tick = device->state;
    uint32_t csr = tick->csr;

    if (offset == CSR) {
        tick->csr &= ~(uint32_t)COUNTFLAG;
        return csr;
    }
    if (offset == RVR) {
        return tick->reload;
    }
    if (offset == CVR && (csr & ENABLE) != 0) {
        machine_read_moving();
        return (uint32_t)(tick->zero_at - machine_cycle()) / divider(tick);
    }
    return 0;
}

static void systick_write(struct device *device, uint32_t offset, uint32_t value)
{
    struct systick *tick = device->state;

    if (offset == CSR) {
        bool starts = (value & ENABLE) != 0 && (tick->csr & ENABLE) == 0;

        tick->csr = (value & 7) | (tick->csr & COUNTFLAG);
        if (starts) {
            restart(tick);
        }
    } else if (offset == RVR) {
        tick->reload = value & 0xFFFFFF;
    } else if (offset == CVR) {
        tick->csr &= ~(uint32_t)COUNTFLAG;
        restart(tick);
    }
}

static uint64_t systick_due(const struct device *device)
{
    const struct systick *tick = device->state;

    return (tick->csr & ENABLE) != 0 && tick->reload != 0 ? tick->zero_at : NEVER;
}

static void systick_step(struct device *device)
{
    struct systick *tick = device->state;

    tick->csr |= COUNTFLAG;
    tick->pending = tick->pending || (tick->csr & TICKINT) != 0;
    tick->zero_at += period(tick);
}

static uint32_t scb_read(struct device *device, uint32_t offset)
{
    (void)device;
    return offset == VTOR ? scb->vtor : offset == SCR ? scb->control : 0;
}

static void scb_write(struct device *device, uint32_t offset, uint32_t value)
{
    (void)device;
    if (offset == VTOR) {
        scb->vtor = value;
    } else if (offset == AIRCR && value == 0x05FA0004) {
        machine_ask_reset();
    } else if (offset == SCR) {
        scb->control = value;
    }
}

void nvic_pends(int interrupt)
{
    if ((scb->control & SEVONPEND) != 0 && interrupt >= 0 && !bit(nvic->pended, interrupt)) {
        machine_event();
    }
    nvic->pended[interrupt / 32] |= 1u << (interrupt % 32);
}

bool nvic_sleeps_deep(void)
{
    return (scb->control & SLEEPDEEP) != 0;
}

bool nvic_tick_asks(void)
{
    return (systick->csr & (ENABLE | TICKINT)) == (ENABLE | TICKINT);
}

const struct model nvic_model = {
    .kind = "nvic", .state_bytes = sizeof(struct nvic), .reset = nvic_reset, .read = nvic_read,
    .write = nvic_write};
const struct model systick_model = {
    .kind = "systick", .state_bytes = sizeof(struct systick), .reset = systick_reset,
    .read = systick_read, .write = systick_write, .due = systick_due, .step = systick_step};
const struct model scb_model = {
    .kind = "scb", .state_bytes = sizeof(struct scb), .reset = scb_reset, .read = scb_read,
    .write = scb_write};
