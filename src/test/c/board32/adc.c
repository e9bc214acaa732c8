/*
 * What both kinds of converter share: which pin a channel is on, and what voltage that has. The knob is
 * between the rails, so only its share of the supply counts.
 */
#include "adc.h"

#include <stdio.h>
#include <string.h>

uint32_t adc_sample(const struct device *device, unsigned channel)
{
    const char *input = device_item(device, "inputs", channel);
    uint32_t bits = device_option(device, "bits", 12);
    uint64_t code = ((uint64_t)machine_knob_mv << bits) / SUPPLY_MV;
    char port[2] = {0}, pin[8];
    unsigned bit;

    if (input == NULL || sscanf(input, "%1[A-F]%u", port, &bit) != 2) {
        machine_complain("a channel is converted that has no pin", channel);
        return 0;
    }
    snprintf(pin, sizeof pin, "%s%u", port, bit);
    if (strcmp(pin, machine_knob_pin) != 0) {
        machine_complain("a channel is converted that nothing is wired to", channel);
        return 0;
    }
    if (machine_device(port)->model->pin(machine_device(port), bit).use != PIN_ANALOG) {
        machine_complain("a pin is converted that is not analog", channel);
    }
    return code >> bits != 0 ? (1u << bits) - 1 : (uint32_t)code;
}

void adc_check_clock(const struct device *device, uint32_t hz)
{
    if (hz < device_option(device, "least", 0) || hz > device_option(device, "most", 14000000)) {
        machine_complain("the clock of the converter is too slow or too fast", device->base);
    }
}

uint64_t adc_cycles(double ticks, uint32_t hz)
{
    return machine_cycles_in((uint64_t)(ticks * 1e9 / (hz == 0 ? 1 : hz)));
}
