/*
 * ECLIC of Bumblebee cores (GD32VF103): Nuclei "Bumblebee core architecture manual", section 6; four
 * registers of a byte for each interrupt. Of levels and priorities only the order is followed, as none nests
 * here; the threshold keeps back what is not above it.
 */
#include "eclic.h"

#include "models.h"

#define INTERRUPTS 87

enum { CFG = 0x0000, INFO = 0x0004, MTH_WORD = 0x0008, FIRST = 0x1000 };
/* Four bits of a level or priority, 87 interrupts. */
#define INFO_VALUE (4u << 21 | INTERRUPTS)
#define CTL_BITS 4
enum { SHV = 1u << 0, EDGE = 1u << 1, FALLING = 1u << 2 };

struct source {
    bool enabled, latched;
    uint8_t attributes, control;
};

struct eclic {
    struct source sources[INTERRUPTS];
    uint8_t config, threshold;
};

/* There is one; it is asked at every instruction. */
static struct eclic *eclic;

static void reset(struct device *device)
{
    eclic = device->state;
}

static bool is_pending(int i)
{
    const struct source *source = &eclic->sources[i];

    return source->latched || ((source->attributes & EDGE) == 0 && machine_asks(i));
}

/* The bits of a level, as many as CFG says; those below are ones, and so are those that are not there. */
static unsigned level(const struct source *source)
{
    unsigned bits = eclic->config >> 1 & 15;

    bits = bits < CTL_BITS ? bits : CTL_BITS;
    return source->control | 0xFFu >> bits;
}

int eclic_pending(void)
{
    int best = -1;

    for (int i = 0; i < INTERRUPTS; i++) {
        const struct source *source = &eclic->sources[i];

        if (source->enabled && level(source) > eclic->threshold && is_pending(i) &&
            (best < 0 || source->control >= eclic->sources[best].control)) {
            best = i;
        }
    }
    return best;
}

void eclic_entered(int interrupt)
{
    eclic->sources[interrupt].latched = false;
}

bool eclic_is_vectored(int interrupt)
{
    return (eclic->sources[interrupt].attributes & SHV) != 0;
}

static uint32_t read(struct device *device, uint32_t offset)
{
    unsigned i = (offset - FIRST) / 4;

    (void)device;
    if (offset == CFG || offset == INFO) {
        return offset == CFG ? eclic->config : INFO_VALUE;
    }
    if (offset == MTH_WORD) {
        return (uint32_t)eclic->threshold << 24;
    }
    if (offset < FIRST || i >= INTERRUPTS) {
        return 0;
    }
    return (uint32_t)is_pending((int)i) | (uint32_t)eclic->sources[i].enabled << 8 |
           (uint32_t)eclic->sources[i].attributes << 16 | (uint32_t)eclic->sources[i].control << 24;
}

static void write_source(struct device *device, unsigned i, uint32_t value)
{
    struct source *source = &eclic->sources[i];

    source->enabled = (value >> 8 & 1) != 0;
    source->attributes = value >> 16 & 7;
    source->control = (uint8_t)(value >> 24 | 0xFFu >> CTL_BITS);
    /* Of a level the bit only shows what the peripheral asks. */
    source->latched = (source->attributes & EDGE) != 0 && (value & 1) != 0;
    if ((source->attributes & EDGE) != 0) {
        machine_complain("an interrupt by its edge has no model", device->base + FIRST + 4 * i);
    }
}

static void write(struct device *device, uint32_t offset, uint32_t value)
{
    if (offset == CFG) {
        eclic->config = value & 0x1E;
    } else if (offset == MTH_WORD) {
        eclic->threshold = (uint8_t)(value >> 24);
    } else if (offset >= FIRST && (offset - FIRST) / 4 < INTERRUPTS) {
        write_source(device, (offset - FIRST) / 4, value);
    } else {
        machine_complain("no interrupt has this register", device->base + offset);
    }
}

const struct model eclic_model = {
    .kind = "eclic", .state_bytes = sizeof(struct eclic), .reset = reset, .read = read, .write = write};
