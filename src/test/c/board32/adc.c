/*
 * A converter that is asked for one channel at a time: with ISR and CHSELR, RM0091 (STM32F0),
 * section 13; with SR and SQR3, RM0008 (STM32F1), section 11, and CH32V, GD32VF103. All channels see the knob.
 * The knob is between the rails, so only its share of the supply counts.
 */
#include "models.h"

/* 12 bits in 14 cycles of 14 MHz, and the longest sampling: some 20 us. */
#define CONVERSION_NS 20000

struct adc {
    uint32_t registers[0x50 / 4];
    uint32_t common, flags, control, data;
    bool converts;
    uint64_t done_at;
};

static uint32_t sample(const struct device *device)
{
    uint32_t bits = device_option(device, "bits", 12);
    uint64_t code = ((uint64_t)machine_knob_mv << bits) / SUPPLY_MV;

    return code >> bits != 0 ? (1u << bits) - 1 : (uint32_t)code;
}

static void convert(struct adc *adc)
{
    adc->converts = true;
    adc->done_at = machine_cycle() + machine_cycles_in(CONVERSION_NS);
}

static uint64_t due(const struct device *device)
{
    const struct adc *adc = device->state;

    return adc->converts ? adc->done_at : NEVER;
}

enum { ISR = 0x00, IER = 0x04, CR = 0x08, CFGR1 = 0x0C, CHSELR = 0x28, DR = 0x40, CCR = 0x308 };
enum { ADRDY = 1u << 0, EOC = 1u << 2, EOS = 1u << 3, CCRDY = 1u << 13, EOCAL = 1u << 11 };
enum { ADEN = 1u << 0, ADDIS = 1u << 1, ADSTART = 1u << 2, ADSTP = 1u << 4, ADVREGEN = 1u << 28 };
#define ADCAL (1u << 31)

static void isr_step(struct device *device)
{
    static const unsigned dropped[] = {0, 2, 4, 6};
    struct adc *adc = device->state;

    adc->converts = false;
    adc->data = sample(device) >> dropped[adc->registers[CFGR1 / 4] >> 3 & 3];
    adc->flags |= EOC | EOS;
    adc->control &= ~(uint32_t)ADSTART;
}

static void isr_control(struct device *device, uint32_t value)
{
    struct adc *adc = device->state;
    bool was_on = (adc->control & ADEN) != 0;

    if ((value & ADCAL) != 0) {
        if (was_on) {
            machine_complain("calibration while ADEN is set", device->base);
        }
        adc->flags |= EOCAL;
    }
    adc->control |= value & (ADEN | ADVREGEN);
    if ((value & ADEN) != 0) {
        adc->flags |= ADRDY;
    }
    if ((value & ADDIS) != 0) {
        adc->control &= ~(uint32_t)ADEN;
        adc->flags &= ~(uint32_t)ADRDY;
    }
    if ((value & ADSTART) != 0) {
        if (!was_on || __builtin_popcount(adc->registers[CHSELR / 4]) != 1) {
            machine_complain("a conversion of none or of several channels", device->base);
        }
        adc->control |= ADSTART;
        convert(adc);
    }
}

static uint32_t isr_read(struct device *device, uint32_t offset)
{
    struct adc *adc = device->state;

    switch (offset) {
    case ISR:
        return adc->flags;
    case CR:
        return adc->control;
    case DR:
        adc->flags &= ~(uint32_t)EOC;
        return adc->data;
    case CCR:
        return adc->common;
    default:
        return offset < sizeof adc->registers ? adc->registers[offset / 4] : 0;
    }
}

static void isr_write(struct device *device, uint32_t offset, uint32_t value)
{
    struct adc *adc = device->state;

    if (offset == ISR) {
        adc->flags &= ~value;
    } else if (offset == CR) {
        isr_control(device, value);
    } else if (offset == CCR) {
        adc->common = value;
    } else if (offset < sizeof adc->registers) {
        adc->registers[offset / 4] = value;
        adc->flags |= offset == CHSELR ? CCRDY : 0;
    }
}

const struct model adc_isr_model = {
    .kind = "adc_isr", .state_bytes = sizeof(struct adc), .read = isr_read, .write = isr_write,
    .due = due, .step = isr_step};

enum { SR = 0x00, CR1 = 0x04, CR2 = 0x08, SQR1 = 0x2C, SQR3 = 0x34, OLD_DR = 0x4C };
enum { OLD_EOC = 1u << 1, STRT = 1u << 4, ADON = 1u << 0, CAL = 1u << 2, RSTCAL = 1u << 3,
       SWSTART = 1u << 22 };
#define BY_SOFTWARE (7u << 17)

static void sr_step(struct device *device)
{
    struct adc *adc = device->state;

    adc->converts = false;
    adc->data = sample(device);
    adc->flags |= OLD_EOC;
}

/* ADON written again with nothing else changed starts too: RM0008, 11.12.3. */
static void sr_control(struct device *device, uint32_t value)
{
    struct adc *adc = device->state;
    uint32_t old = adc->registers[CR2 / 4];
    bool again = (old & value & ADON) != 0 && (value & ~(uint32_t)SWSTART) == old;
    bool starts = (value & SWSTART) != 0 && (value & BY_SOFTWARE) == BY_SOFTWARE;

    adc->registers[CR2 / 4] = value & ~(uint32_t)(CAL | RSTCAL | SWSTART);
    if ((old & ADON) != 0 && (starts || (again && device_option(device, "adon_starts", 1) != 0))) {
        adc->flags |= STRT;
        convert(adc);
    }
}

static uint32_t sr_read(struct device *device, uint32_t offset)
{
    struct adc *adc = device->state;

    if (offset == SR) {
        return adc->flags;
    }
    if (offset == OLD_DR) {
        adc->flags &= ~(uint32_t)OLD_EOC;
        return adc->data;
    }
    return offset < sizeof adc->registers ? adc->registers[offset / 4] : 0;
}

static void sr_write(struct device *device, uint32_t offset, uint32_t value)
{
    struct adc *adc = device->state;

    if (offset == SR) {
        adc->flags &= value;
    } else if (offset == CR2) {
        sr_control(device, value);
    } else if (offset < sizeof adc->registers) {
        adc->registers[offset / 4] = value;
    }
}

const struct model adc_sr_model = {
    .kind = "adc_sr", .state_bytes = sizeof(struct adc), .read = sr_read, .write = sr_write,
    .due = due, .step = sr_step};
