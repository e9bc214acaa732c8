/*
 * The switch matrix and IOCON of the LPC800 series: UM10601 9.5 and 8.5, UM10800 7.5 and 8.5; LPC84x and LPC80x
 * alike. What has no rule is in families.txt, with pins counted on into port 1:
 *   moves=BYTE/DEVICE/SIGNAL     the byte of PINASSIGN that leads a signal to a pin
 *   fixed=BIT/DEVICE/SIGNAL/PIN  the bit of PINENABLE0, clear, that leads a signal to its pin
 *   held=BIT/PIN                 such a bit of debugger and reset button
 *   analog=BIT, inputs=PIN,...   such a bit of the first input of the converter; others follow
 *   places=PIN,...               of IOCON: the pin of each register
 *   pair=PIN                     two pins that can only pull low, this one and the next
 */
#include "lpc.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#define PINS 64
#define UNASSIGNED 0xFFu
#define PINENABLE0 0x1C0u

enum { RESERVED = 0x380, RESERVED_AS = 0x080, PAIR_MODE = 0x300, PULL_UP = 0x10 };

struct swm {
    uint32_t words[PINENABLE0 / 4 + 1];
};

struct iocon {
    uint32_t words[PINS];
};

/* What families.txt says, read once: pins are asked for at every turn. */
#define LEADS_MOST 8
#define CHANNELS 12
static struct lpc_lead leads[LEADS_MOST];
static unsigned lead_count;
static int places[PINS], inputs[CHANNELS], held_bits[LEADS_MOST], held_pins[LEADS_MOST], first_input, pair;
static unsigned place_count, held_count;
static const struct swm *swm;
static const struct iocon *iocon_words;

static int listed(const struct device *device, const char *key, unsigned n)
{
    const char *item = device_item(device, key, n);

    return item == NULL ? -1 : (int)strtol(item, NULL, 0);
}

static unsigned assigned(unsigned byte)
{
    return swm->words[byte / 4] >> 8 * (byte % 4) & 0xFF;
}

static bool is_enabled(unsigned bit)
{
    return (swm->words[PINENABLE0 / 4] >> bit & 1) == 0;
}

bool lpc_is_pair(int pin)
{
    return pair >= 0 && (pin == pair || pin == pair + 1);
}

uint32_t lpc_config(unsigned pin)
{
    for (unsigned n = 0; n < place_count; n++) {
        if (places[n] == (int)pin) {
            return iocon_words->words[n];
        }
    }
    machine_complain("a pin that the part does not have", pin);
    return 0;
}

int lpc_input(unsigned channel)
{
    return first_input >= 0 && channel < CHANNELS && is_enabled((unsigned)first_input + channel) ? inputs[channel]
                                                                                                 : -1;
}

const struct lpc_lead *lpc_led(unsigned pin)
{
    for (unsigned n = 0; n < lead_count; n++) {
        bool here = leads[n].fixed_pin < 0 ? assigned(leads[n].place) == pin
                                           : leads[n].fixed_pin == (int)pin && is_enabled(leads[n].place);

        if (here) {
            return &leads[n];
        }
    }
    return NULL;
}

bool lpc_is_held(unsigned pin)
{
    for (unsigned n = 0; n < held_count; n++) {
        if (held_pins[n] == (int)pin && is_enabled((unsigned)held_bits[n])) {
            return true;
        }
    }
    return false;
}

bool lpc_is_analog(unsigned pin)
{
    for (unsigned channel = 0; channel < CHANNELS; channel++) {
        if (inputs[channel] == (int)pin && lpc_input(channel) == (int)pin) {
            return true;
        }
    }
    return false;
}

int lpc_pin_at(unsigned n)
{
    return n < place_count ? places[n] : -1;
}

unsigned lpc_places(void)
{
    return place_count;
}

static void read_leads(const struct device *device, const char *key)
{
    const char *item;
    char name[16];

    for (unsigned n = 0; (item = device_item(device, key, n)) != NULL; n++) {
        struct lpc_lead *lead = &leads[lead_count++ % LEADS_MOST];

        lead->fixed_pin = -1;
        if (sscanf(item, "%u/%15[^/]/%7[^/, ]/%d", &lead->place, name, lead->signal, &lead->fixed_pin) < 3) {
            fprintf(stderr, "not understood: %s\n", item);
            exit(2);
        }
        lead->from = machine_device(name);
    }
}

static void read_lists(const struct device *device)
{
    const char *item;

    lead_count = held_count = 0;
    read_leads(device, "moves");
    read_leads(device, "fixed");
    for (; (item = device_item(device, "held", held_count)) != NULL; held_count++) {
        sscanf(item, "%d/%d", &held_bits[held_count], &held_pins[held_count]);
    }
    first_input = listed(device, "analog", 0);
    for (unsigned channel = 0; channel < CHANNELS; channel++) {
        inputs[channel] = listed(device, "inputs", channel);
    }
}

static void swm_reset(struct device *device)
{
    struct swm *state = device->state;

    swm = state;
    read_lists(device);
    memset(state->words, 0xFF, sizeof state->words);
    state->words[PINENABLE0 / 4] = device_option(device, "reset", UINT32_MAX);
}

static uint32_t swm_read(struct device *device, uint32_t offset)
{
    return offset <= PINENABLE0 ? ((struct swm *)device->state)->words[offset / 4] : UINT32_MAX;
}

/* "One function that is an output for each pin". */
static void check_assigned(const struct device *device, uint32_t offset)
{
    for (unsigned ours = offset; ours < offset + 4; ours++) {
        for (unsigned byte = 0; byte < 64; byte++) {
            if (byte != ours && assigned(ours) != UNASSIGNED && assigned(byte) == assigned(ours)) {
                machine_complain("two functions are led to one pin", device->base + offset);
            }
        }
    }
}

static void swm_write(struct device *device, uint32_t offset, uint32_t value)
{
    struct swm *state = device->state;

    if (offset > PINENABLE0 || (offset >= 64 && offset != PINENABLE0)) {
        machine_complain("a write to the switch matrix that has no model", device->base + offset);
        return;
    }
    state->words[offset / 4] = value;
    if (offset != PINENABLE0) {
        check_assigned(device, offset);
    }
}

const struct model lpc_swm_model = {.kind = "lpc_swm", .state_bytes = sizeof(struct swm),
                                    .reset = swm_reset, .read = swm_read, .write = swm_write};

static void iocon_reset(struct device *device)
{
    struct iocon *iocon = device->state;

    iocon_words = iocon;
    pair = listed(device, "pair", 0);
    for (place_count = 0; place_count < PINS && device_item(device, "places", place_count) != NULL; place_count++) {
        places[place_count] = listed(device, "places", place_count);
        iocon->words[place_count] = lpc_is_pair(places[place_count]) ? RESERVED_AS : RESERVED_AS | PULL_UP;
    }
}

static uint32_t iocon_read(struct device *device, uint32_t offset)
{
    return ((struct iocon *)device->state)->words[offset / 4 % PINS];
}

static void iocon_write(struct device *device, uint32_t offset, uint32_t value)
{
    struct iocon *iocon = device->state;
    int pin = offset / 4 < place_count ? places[offset / 4] : -1;
    uint32_t reserved = lpc_is_pair(pin) ? RESERVED & ~(uint32_t)PAIR_MODE : RESERVED;

    if (pin < 0 || (value & reserved) != (RESERVED_AS & reserved)) {
        machine_complain("a register of IOCON that is no pin's, or its reserved bits", device->base + offset);
        return;
    }
    iocon->words[offset / 4] = value;
}

const struct model lpc_iocon_model = {.kind = "lpc_iocon", .state_bytes = sizeof(struct iocon),
                                      .reset = iocon_reset, .read = iocon_read, .write = iocon_write};
