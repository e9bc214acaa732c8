/*
 * The converter with ISR and CHSELR, one channel at a time: RM0091 (STM32F0), section 13, RM0454
 * (STM32G0), section 14, RM0490 (STM32C0), section 14, RM0377 (STM32L0), section 14. Options: `own`, the
 * clock of its own in Hz; `regulator`, to be switched on by software; `ready`, CCRDY; `low`, below which
 * LFMEN is wanted; `sampling`, tenths of the longest time.
 */
#include "adc.h"

enum { ISR = 0x00, IER = 0x04, CR = 0x08, CFGR1 = 0x0C, CFGR2 = 0x10, SMPR = 0x14, CHSELR = 0x28,
       DR = 0x40, CCR = 0x308 };
enum { ADRDY = 1u << 0, EOC = 1u << 2, EOS = 1u << 3, CCRDY = 1u << 13, EOCAL = 1u << 11 };
enum { ADEN = 1u << 0, ADDIS = 1u << 1, ADSTART = 1u << 2, ADSTP = 1u << 4, ADVREGEN = 1u << 28,
       LFMEN = 1u << 25, RES = 3u << 3 };
#define ADCAL (1u << 31)
#define CKMODE (3u << 30)
#define LONGEST 7u

/* Data sheets, "ADC characteristics", tADCVREG_SETUP, at most. */
#define REGULATOR_NS 20000
/* RM0091, 13.3.3: the calibration, and the clocks after it in which ADEN is not heard. */
#define CALIBRATION_TICKS 83
#define DEAF_TICKS 4
#define CHANNEL_TICKS 2

struct adc {
    uint32_t registers[0x50 / 4];
    uint32_t common, flags, control, data;
    /* When each of these is over; 0: does not happen. */
    uint64_t calibrated_at, ready_at, channel_at, done_at;
    uint64_t regulated_at, hears_at;
};

/* CKMODE: a clock of its own, with a divider in CCR, or a half, a quarter, or all of the bus's. */
static uint32_t clock_hz(const struct device *device)
{
    static const uint32_t by[] = {1, 2, 4, 6, 8, 10, 12, 16, 32, 64, 128, 256, 1, 1, 1, 1};
    const struct adc *adc = device->state;
    struct device *rcc = machine_device("rcc");
    uint32_t own = device_option(device, "own", 0);

    switch (adc->registers[CFGR2 / 4] >> 30) {
    case 0:
        return (own != 0 ? own : rcc->model->converter_hz(rcc)) / by[adc->common >> 18 & 15];
    case 1:
        return machine_hz() / 2;
    case 2:
        return machine_hz() / 4;
    default:
        return own != 0 ? 0 : machine_hz();
    }
}

static void check_clock(const struct device *device)
{
    const struct adc *adc = device->state;

    adc_check_clock(device, clock_hz(device));
    if (clock_hz(device) < device_option(device, "low", 0) && (adc->common & LFMEN) == 0) {
        machine_complain("a slow clock of the converter without LFMEN", device->base + CCR);
    }
}

static uint64_t after(const struct device *device, double ticks)
{
    return machine_cycle() + adc_cycles(ticks, clock_hz(device));
}

static uint64_t sooner(uint64_t due, uint64_t at)
{
    return at != 0 && at < due ? at : due;
}

static uint64_t due(const struct device *device)
{
    const struct adc *adc = device->state;

    return sooner(sooner(sooner(sooner(NEVER, adc->calibrated_at), adc->ready_at), adc->channel_at),
                  adc->done_at);
}

static bool is_over(uint64_t *at)
{
    bool over = *at != 0 && *at <= machine_cycle();

    *at = over ? 0 : *at;
    return over;
}

static unsigned channel(const struct adc *adc)
{
    return (unsigned)__builtin_ctz(adc->registers[CHSELR / 4] | 1u << 31);
}

static void step(struct device *device)
{
    static const unsigned dropped[] = {0, 2, 4, 6};
    struct adc *adc = device->state;

    if (is_over(&adc->calibrated_at)) {
        adc->control &= ~ADCAL;
        adc->flags |= EOCAL;
        adc->hears_at = after(device, DEAF_TICKS);
    }
    if (is_over(&adc->ready_at)) {
        adc->flags |= ADRDY;
    }
    if (is_over(&adc->channel_at)) {
        adc->flags |= CCRDY;
    }
    if (is_over(&adc->done_at)) {
        adc->data = adc_sample(device, channel(adc)) >> dropped[adc->registers[CFGR1 / 4] >> 3 & 3];
        adc->flags |= EOC | EOS;
        adc->control &= ~(uint32_t)ADSTART;
    }
}

static void calibrate(struct device *device)
{
    struct adc *adc = device->state;

    if ((adc->control & (ADEN | ADSTART | ADCAL)) != 0) {
        machine_complain("calibration while the converter is on", device->base + CR);
    }
    adc->control |= ADCAL;
    adc->calibrated_at = after(device, CALIBRATION_TICKS);
}

static void enable(struct device *device)
{
    struct adc *adc = device->state;

    if ((adc->control & (ADEN | ADCAL)) == 0 && machine_cycle() >= adc->hears_at) {
        adc->control |= ADEN;
        adc->ready_at = machine_cycle() + machine_cycles_in(ADC_STABLE_NS);
    }
}

/* RM0091, 13.3.5: after ADRDY, and, where there is CCRDY, after that: RM0454, 14.3.8. */
static void start(struct device *device)
{
    struct adc *adc = device->state;

    if ((adc->flags & ADRDY) == 0 || (adc->control & ADEN) == 0) {
        machine_complain("a conversion before the converter is ready", device->base + CR);
    }
    if (device_option(device, "ready", 0) != 0 && (adc->flags & CCRDY) == 0) {
        machine_complain("a conversion before the channel is ready", device->base + CR);
    }
    if (__builtin_popcount(adc->registers[CHSELR / 4]) != 1 ||
        (adc->registers[SMPR / 4] & 7) != LONGEST) {
        machine_complain("only one channel, sampled for long, has a model", device->base + CHSELR);
    }
    check_clock(device);
    adc->control |= ADSTART;
    adc->done_at = after(device, device_option(device, "sampling", 2395) / 10.0 + 12.5 -
                                     2 * (adc->registers[CFGR1 / 4] >> 3 & 3));
}

static void control(struct device *device, uint32_t value)
{
    struct adc *adc = device->state;
    bool needs = device_option(device, "regulator", 0) != 0;

    if ((value & ~adc->control & ADVREGEN) != 0) {
        adc->regulated_at = machine_cycle() + machine_cycles_in(REGULATOR_NS);
    }
    adc->control |= value & ADVREGEN;
    if (needs && (value & (ADCAL | ADEN)) != 0 &&
        ((adc->control & ADVREGEN) == 0 || machine_cycle() < adc->regulated_at)) {
        machine_complain("the regulator of the converter is not ready", device->base + CR);
    }
    if ((value & ADCAL & ~adc->control) != 0) {
        calibrate(device);
    } else if ((value & ADDIS) != 0) {
        if ((adc->control & ADEN) == 0 || (adc->control & ADSTART) != 0) {
            machine_complain("switched off while it is off, or converts", device->base + CR);
        }
        adc->control &= ~(uint32_t)ADEN;
        adc->flags &= ~(uint32_t)ADRDY;
    } else if ((value & ADEN & ~adc->control) != 0) {
        enable(device);
    }
    if ((value & ADSTART & ~adc->control) != 0) {
        start(device);
    }
}

static uint32_t read(struct device *device, uint32_t offset)
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

/* The clock and the resolution while it is off, the rest while none converts: RM0091, 13.12. */
static void check_write(const struct device *device, uint32_t offset, uint32_t changes)
{
    const struct adc *adc = device->state;
    bool clock = offset == CCR || (offset == CFGR2 && (changes & CKMODE) != 0);
    bool while_off = clock || (offset == CFGR1 && (changes & RES) != 0);

    if ((adc->control & ADSTART) != 0 ||
        (while_off && changes != 0 && (adc->control & (ADEN | ADCAL)) != 0)) {
        machine_complain("a setting of the converter is written while it is on", device->base + offset);
    }
}

static void write(struct device *device, uint32_t offset, uint32_t value)
{
    struct adc *adc = device->state;

    if (offset == ISR) {
        adc->flags &= ~value;
    } else if (offset == CR) {
        control(device, value);
    } else if (offset == CCR) {
        check_write(device, offset, adc->common ^ value);
        adc->common = value;
    } else if (offset < sizeof adc->registers) {
        check_write(device, offset, adc->registers[offset / 4] ^ value);
        adc->registers[offset / 4] = value;
        if (offset == CHSELR && device_option(device, "ready", 0) != 0) {
            adc->channel_at = after(device, CHANNEL_TICKS);
        }
    }
}

const struct model adc_isr_model = {
    .kind = "adc_isr", .state_bytes = sizeof(struct adc), .read = read, .write = write, .due = due,
    .step = step};
