/*
 * The converter of SAM D10, D11, D20 and D21: data sheet of SAM D21 (DS40001882), "ADC". One input
 * against ground, half of it against half of the supply. All inputs see the knob.
 */
#include "models.h"
#include "samd.h"

enum { CTRLA = 0x00, REFCTRL = 0x01, SAMPCTRL = 0x03, CTRLB = 0x04, SWTRIG = 0x0C, INPUTCTRL = 0x10,
       INTFLAG = 0x18, STATUS = 0x19, RESULT = 0x1A, CALIB = 0x28 };
enum { ENABLE = 2, START = 2, RESRDY = 1, SYNCBUSY = 0x80, HALF_SUPPLY = 2 };
#define HALF_INPUT 0xF000000u
#define AGAINST_GROUND 0x1800u

/* "Register Synchronization": up to six clocks of the peripheral. */
#define SYNC_CYCLES 6

struct adc {
    uint32_t reference, sampling, control, input, calibration, result;
    bool on, converts, ready, settled;
    uint64_t done_at, synced_at;
};

static void check(const struct device *device)
{
    const struct adc *adc = device->state;
    double hz = samd_clock(device) / (4u << (adc->control >> 8 & 7));

    if (hz < 30000 || hz > 2100000) {
        machine_complain("the converter's clock is not between 30 kHz and 2.1 MHz", device->base);
    }
    if (adc->calibration != (CALIBRATION_BIAS << 8 | CALIBRATION_LINEARITY)) {
        machine_complain("the converter is not calibrated", device->base + CALIB);
    }
    if (adc->reference != HALF_SUPPLY || (adc->input & ~0x1Fu) != (HALF_INPUT | AGAINST_GROUND)) {
        machine_complain("no voltage between ground and supply is measured", device->base);
    }
}

/* Sampling, and a half clock for each bit and some more: "Conversion Timing and Sampling Rate". */
static void start(struct device *device)
{
    struct adc *adc = device->state;
    double clocks = (adc->sampling + 1) / 2.0 + 6 + 1;

    check(device);
    if (!adc->on) {
        machine_complain("a conversion without ENABLE", device->base);
        return;
    }
    adc->converts = true;
    adc->done_at = machine_cycle() +
                   (uint64_t)(clocks * (4u << (adc->control >> 8 & 7)) * machine_hz() / samd_clock(device));
}

static void step(struct device *device)
{
    static const unsigned bits[] = {12, 16, 10, 8};
    struct adc *adc = device->state;
    unsigned width = bits[adc->control >> 4 & 3];
    uint64_t code = ((uint64_t)machine_knob_mv << width) / SUPPLY_MV;

    adc->converts = false;
    adc->ready = true;
    adc->result = code >> width != 0 ? (1u << width) - 1 : (uint32_t)code;
    if (!adc->settled) {
        adc->result ^= 0xFF; /* The first one after a change of the reference is no good. */
        adc->settled = true;
    }
}

static void write(struct device *device, uint32_t offset, uint32_t value, unsigned bytes)
{
    struct adc *adc = device->state;

    adc->synced_at = machine_cycle() + SYNC_CYCLES;
    if (offset == CTRLA && bytes == 1) {
        adc->on = (value & ENABLE) != 0;
    } else if (offset == REFCTRL && bytes == 1) {
        adc->reference = value;
        adc->settled = false;
    } else if (offset == SAMPCTRL && bytes == 1) {
        adc->sampling = value & 0x3F;
    } else if (offset == CTRLB && bytes == 2) {
        adc->control = value;
    } else if (offset == INPUTCTRL && bytes == 4) {
        adc->input = value;
    } else if (offset == CALIB && bytes == 2) {
        adc->calibration = value;
    } else if (offset == SWTRIG && bytes == 1 && value == START) {
        start(device);
    } else {
        machine_complain("a write that the converter does not know", device->base + offset);
    }
}

static uint32_t read(struct device *device, uint32_t offset, unsigned bytes)
{
    struct adc *adc = device->state;

    if (offset == STATUS) {
        machine_read_moving();
        return machine_cycle() < adc->synced_at ? SYNCBUSY : 0;
    }
    if (offset == RESULT && bytes == 2) {
        adc->ready = false;
        return adc->result;
    }
    return offset == INTFLAG && adc->ready ? RESRDY : 0;
}

static uint64_t due(const struct device *device)
{
    const struct adc *adc = device->state;

    return adc->converts ? adc->done_at : NEVER;
}

const struct model adc_samd_model = {
    .kind = "adc_samd", .state_bytes = sizeof(struct adc), .read_bytes = read, .write_bytes = write,
    .due = due, .step = step};
