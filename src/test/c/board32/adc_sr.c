/*
 * The converter with SR and SQR3, one channel at a time: RM0008 (STM32F1), section 11; the same in
 * CH32V (reference manuals, "ADC") and GD32VF103 (user manual, section 11).
 */
#include "adc.h"

enum { SR = 0x00, CR1 = 0x04, CR2 = 0x08, SMPR1 = 0x0C, SMPR2 = 0x10, SQR1 = 0x2C, SQR3 = 0x34,
       DR = 0x4C };
enum { EOC = 1u << 1, STRT = 1u << 4, ADON = 1u << 0, CAL = 1u << 2, RSTCAL = 1u << 3,
       SWSTART = 1u << 22 };
#define BY_SOFTWARE (15u << 17)
#define LENGTH (15u << 20)

struct adc {
    uint32_t registers[0x50 / 4];
    uint32_t flags, data;
    bool converts;
    uint64_t done_at, stable_at;
};

static uint32_t clock_hz(void)
{
    struct device *rcc = machine_device("rcc");

    return rcc->model->converter_hz(rcc);
}

static unsigned channel(const struct adc *adc)
{
    return adc->registers[SQR3 / 4] & 31;
}

/* RM0008, 11.12.4 and 11.12.5, and 12.5 clocks for the conversion itself: 11.6. */
static void convert(struct device *device)
{
    static const double sampling[] = {1.5, 7.5, 13.5, 28.5, 41.5, 55.5, 71.5, 239.5};
    struct adc *adc = device->state;
    uint32_t times = adc->registers[(channel(adc) < 10 ? SMPR2 : SMPR1) / 4];

    adc_check_clock(device, clock_hz());
    if ((adc->registers[SQR1 / 4] & LENGTH) != 0) {
        machine_complain("a sequence of several conversions has no model", device->base + SQR1);
    }
    adc->converts = true;
    adc->done_at = machine_cycle() +
                   adc_cycles(sampling[times >> 3 * (channel(adc) % 10) & 7] + 12.5, clock_hz());
}

static uint64_t due(const struct device *device)
{
    const struct adc *adc = device->state;

    return adc->converts ? adc->done_at : NEVER;
}

static void step(struct device *device)
{
    struct adc *adc = device->state;

    adc->converts = false;
    adc->data = adc_sample(device, channel(adc));
    adc->flags |= EOC;
}

/* ADON written again with nothing else changed starts too: RM0008, 11.12.3. */
static void control(struct device *device, uint32_t value)
{
    struct adc *adc = device->state;
    uint32_t old = adc->registers[CR2 / 4];
    bool was_on = (old & ADON) != 0;
    bool again = (value & ADON) != 0 && (value & ~(uint32_t)SWSTART) == old;
    bool starts = (value & SWSTART) != 0 && (value & BY_SOFTWARE) == BY_SOFTWARE;

    adc->registers[CR2 / 4] = value & ~(uint32_t)(CAL | RSTCAL | SWSTART);
    if (!was_on && (value & ADON) != 0) {
        adc->stable_at = machine_cycle() + machine_cycles_in(ADC_STABLE_NS);
    }
    if (was_on && (starts || again)) {
        if (machine_cycle() < adc->stable_at) {
            machine_complain("a conversion sooner than the converter is stable", device->base);
        }
        adc->flags |= STRT;
        convert(device);
    }
}

static uint32_t read(struct device *device, uint32_t offset)
{
    struct adc *adc = device->state;

    if (offset == SR) {
        return adc->flags;
    }
    if (offset == DR) {
        adc->flags &= ~(uint32_t)EOC;
        return adc->data;
    }
    return offset < sizeof adc->registers ? adc->registers[offset / 4] : 0;
}

/* A conversion that runs is begun anew when its channel is written: RM0008, 11.3.3. */
static void write(struct device *device, uint32_t offset, uint32_t value)
{
    struct adc *adc = device->state;

    if (offset == SR) {
        adc->flags &= value;
    } else if (offset == CR2) {
        control(device, value);
    } else if (offset < sizeof adc->registers) {
        adc->registers[offset / 4] = value;
        if (offset == SQR3 && adc->converts) {
            convert(device);
        }
    }
}

const struct model adc_sr_model = {
    .kind = "adc_sr", .state_bytes = sizeof(struct adc), .read = read, .write = write, .due = due,
    .step = step};
