/*
 * The converter of LPC82x: UM10800 21.6 and, for its calibration, 21.3.4; LPC84x and LPC80x (`calibrates=0`: which
 * has none) alike, in the mode where it divides the clock of the core. One channel at a time, of sequence A.
 */
#include <stdio.h>
#include <string.h>

#include "adc.h"
#include "lpc.h"

enum { CTRL = 0x00, SEQA_CTRL = 0x08, SEQA_GDAT = 0x10 };
enum { CLKDIV = 0xFF, CHANNELS = 0xFFF, PULL = 0x18 };
#define CALMODE (1u << 30)
#define START (1u << 26)
#define BURST (1u << 27)
#define SEQ_ENA (1u << 31)
#define VALID (1u << 31)

/* 21.3.4, a calibration at 500 kHz; "25 clocks" for a conversion. */
#define CALIBRATION_NS 290000
#define CONVERSION_CLOCKS 25

struct adc {
    uint32_t control, sequence, result;
    bool calibrated, converts;
    uint64_t done_at;
};

static uint32_t clock_hz(const struct adc *adc)
{
    return machine_hz() / ((adc->control & CLKDIV) + 1);
}

static uint32_t sample(unsigned channel)
{
    uint64_t code = ((uint64_t)machine_knob_mv << 12) / SUPPLY_MV;
    int pin = lpc_input(channel);
    char name[16];

    snprintf(name, sizeof name, "%d%d", pin / 32, pin % 32);
    if (pin < 0 || strcmp(name, machine_knob_pin) != 0) {
        machine_complain("a channel is converted that has no pin, or that nothing is wired to", channel);
        return 0;
    }
    if ((lpc_config((unsigned)pin) & PULL) != 0) {
        machine_complain("a pin is converted that has a pull-up or pull-down", channel);
    }
    return code > 0xFFF ? 0xFFF : (uint32_t)code;
}

static void calibrate(struct device *device)
{
    struct adc *adc = device->state;
    uint32_t hz = clock_hz(adc);

    if (hz < 450000 || hz > 550000 || !lpc_powered(LPC_POWER_ADC)) {
        machine_complain("the converter is calibrated without power, or not at 500 kHz", device->base);
    }
    adc->done_at = machine_cycle() + machine_cycles_in(CALIBRATION_NS);
}

/* Channels change only while SEQA_ENA is off, or as it is switched on. */
static void write_sequence(struct device *device, uint32_t value)
{
    struct adc *adc = device->state;

    if ((adc->sequence & SEQ_ENA) != 0 && ((adc->sequence ^ value) & CHANNELS) != 0) {
        machine_complain("channels are changed while their sequence is enabled", device->base + SEQA_CTRL);
    }
    adc->sequence = value & ~START;
    if ((value & START) == 0) {
        adc->converts = adc->converts && (value & SEQ_ENA) != 0;
        return;
    }
    if ((value & SEQ_ENA) == 0 || (value & BURST) != 0 || __builtin_popcount(value & CHANNELS) != 1 ||
        !lpc_powered(LPC_POWER_ADC) || (adc->control & CALMODE) != 0 ||
        (!adc->calibrated && device_option(device, "calibrates", 1) != 0)) {
        machine_complain("a conversion without power, calibration or its one channel", device->base + SEQA_CTRL);
    }
    adc_check_clock(device, clock_hz(adc));
    adc->converts = true;
    adc->done_at = machine_cycle() + adc_cycles(CONVERSION_CLOCKS, clock_hz(adc));
}

static void write(struct device *device, uint32_t offset, uint32_t value)
{
    struct adc *adc = device->state;

    if (offset == CTRL && (value & ~(CALMODE | CLKDIV)) == 0) {
        adc->control = value;
        if ((value & CALMODE) != 0) {
            calibrate(device);
        }
    } else if (offset == SEQA_CTRL) {
        write_sequence(device, value);
    } else {
        machine_complain("a write that the converter does not know", device->base + offset);
    }
}

static uint32_t read(struct device *device, uint32_t offset)
{
    struct adc *adc = device->state;
    uint32_t result = adc->result;

    if (offset == SEQA_GDAT) {
        adc->result &= ~VALID;
        return result;
    }
    return offset == CTRL ? adc->control : offset == SEQA_CTRL ? adc->sequence : 0;
}

static uint64_t due(const struct device *device)
{
    const struct adc *adc = device->state;

    return (adc->control & CALMODE) != 0 || adc->converts ? adc->done_at : NEVER;
}

static void step(struct device *device)
{
    struct adc *adc = device->state;
    unsigned channel = (unsigned)__builtin_ctz((adc->sequence & CHANNELS) | 0x1000);

    if ((adc->control & CALMODE) != 0) {
        adc->control &= ~CALMODE;
        adc->calibrated = true;
        return;
    }
    adc->converts = false;
    adc->result = VALID | channel << 26 | sample(channel) << 4;
}

const struct model lpc_adc_model = {
    .kind = "lpc_adc", .state_bytes = sizeof(struct adc), .read = read, .write = write, .due = due,
    .step = step};
