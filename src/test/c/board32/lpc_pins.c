/*
 * Pins of the LPC800 series: the switch matrix, IOCON and GPIO. UM10601 9.5, 8.5 and 7.6, UM10800 7.5, 8.5 and
 * 9.5; LPC84x and LPC80x alike. What has no rule is in families.txt, with pins counted on into port 1:
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

enum { OPEN_DRAIN = 0x400, RESERVED = 0x380, RESERVED_AS = 0x080, PAIR_MODE = 0x300, PULL = 0x18, PULL_UP = 0x10 };
enum { LEVELS = 0x0000, WORDS = 0x1000, DIR = 0x2000, PIN = 0x2100, SET = 0x2200, CLR = 0x2280, NOT = 0x2300 };
#define GPIO1_ON (1u << 20)

struct swm {
    uint32_t words[PINENABLE0 / 4 + 1];
};

struct iocon {
    uint32_t words[PINS];
};

struct gpio {
    uint32_t latch[2], out[2], fed[2];
};

/* What families.txt says, read once: pins are asked for at every turn. */
#define LEADS_MOST 8
#define CHANNELS 12
static struct lead {
    const struct device *from;
    char signal[8];
    unsigned place;
    int fixed_pin;
} leads[LEADS_MOST];
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

static bool is_pair(int pin)
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

/* What is led to the pin, or null. */
static const struct lead *led(unsigned pin)
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

static bool is_held(unsigned pin)
{
    for (unsigned n = 0; n < held_count; n++) {
        if (held_pins[n] == (int)pin && is_enabled((unsigned)held_bits[n])) {
            return true;
        }
    }
    return false;
}

static bool is_analog(unsigned pin)
{
    for (unsigned channel = 0; channel < CHANNELS; channel++) {
        if (inputs[channel] == (int)pin && lpc_input(channel) == (int)pin) {
            return true;
        }
    }
    return false;
}

static struct pin_state state_of(const struct gpio *gpio, unsigned pin)
{
    uint32_t config = lpc_config(pin);
    const struct lead *lead = led(pin);
    struct pin_state state = {.use = (gpio->out[pin / 32] >> pin % 32 & 1) != 0 ? PIN_OUTPUT : PIN_INPUT,
                              .open_drain = (config & OPEN_DRAIN) != 0 || is_pair((int)pin),
                              .latch = (gpio->latch[pin / 32] >> pin % 32 & 1) != 0,
                              .pull_up = (config & PULL) == PULL_UP};

    if (is_analog(pin)) {
        state.use = PIN_ANALOG;
    } else if (is_held(pin)) {
        state.use = PIN_INPUT;
    } else if (lead != NULL) {
        state.use = lead->from->model->drives(lead->from, lead->signal, &state.latch) ? PIN_OUTPUT : PIN_INPUT;
    }
    return state;
}

static bool level(const struct gpio *gpio, unsigned pin)
{
    struct pin_state state = state_of(gpio, pin);
    bool outside = (gpio->fed[pin / 32] >> pin % 32 & 1) != 0;

    return state.use == PIN_OUTPUT ? state.latch && (outside || !state.open_drain)
                                   : outside && state.use != PIN_ANALOG;
}

static uint32_t levels(const struct gpio *gpio, unsigned port)
{
    uint32_t word = 0;

    for (unsigned n = 0; n < place_count; n++) {
        if (places[n] >= 0 && (unsigned)places[n] / 32 == port && level(gpio, (unsigned)places[n])) {
            word |= 1u << places[n] % 32;
        }
    }
    return word;
}

static void check_port(const struct device *device, unsigned port)
{
    struct device *rcc = machine_device("rcc");

    if (port != 0 && (machine_device("1") == NULL || (rcc->model->read(rcc, 0x80) & GPIO1_ON) == 0)) {
        machine_complain("the second port is not there, or has no clock", device->base);
    }
}

static uint32_t gpio_read(struct device *device, uint32_t offset, unsigned bytes)
{
    const struct gpio *gpio = device->state;
    unsigned port = offset / 4 & 1;

    if (offset < PINS && bytes == 1) {
        check_port(device, offset / 32);
        return level(gpio, offset);
    }
    check_port(device, port);
    switch (offset & ~4u) {
    case DIR:
        return gpio->out[port];
    case PIN:
        return levels(gpio, port);
    case SET:
        return gpio->latch[port];
    default:
        machine_complain("a register of GPIO that has no model is read", device->base + offset);
        return 0;
    }
}

static void gpio_write(struct device *device, uint32_t offset, uint32_t value, unsigned bytes)
{
    struct gpio *gpio = device->state;
    unsigned port = offset < PINS ? offset / 32 : offset / 4 & 1;
    uint32_t bit = 1u << offset % 32;

    check_port(device, port);
    if (offset < PINS && bytes == 1) {
        gpio->latch[port] = value != 0 ? gpio->latch[port] | bit : gpio->latch[port] & ~bit;
        return;
    }
    switch (bytes == 4 ? offset & ~4u : UINT32_MAX) {
    case DIR:
        gpio->out[port] = value;
        break;
    case PIN:
        gpio->latch[port] = value;
        break;
    case SET:
        gpio->latch[port] |= value;
        break;
    case CLR:
        gpio->latch[port] &= ~value;
        break;
    case NOT:
        gpio->latch[port] ^= value;
        break;
    default:
        machine_complain("a write to GPIO that has no model", device->base + offset);
    }
}

static void feed(struct gpio *gpio, unsigned pin, bool high)
{
    uint32_t bit = 1u << pin % 32;

    gpio->fed[pin / 32] = high ? gpio->fed[pin / 32] | bit : gpio->fed[pin / 32] & ~bit;
}

static struct pin_state first_pin(const struct device *device, unsigned bit)
{
    return state_of(device->state, bit);
}

static void first_feed(struct device *device, unsigned bit, bool high)
{
    feed(device->state, bit, high);
}

const struct model lpc_gpio_model = {
    .kind = "lpc_gpio", .state_bytes = sizeof(struct gpio), .read_bytes = gpio_read,
    .write_bytes = gpio_write, .pin = first_pin, .feed = first_feed};

/* The second port has its registers among those of the first, and none of its own. */
static struct pin_state second_pin(const struct device *device, unsigned bit)
{
    (void)device;
    return state_of(machine_device("0")->state, 32 + bit);
}

static void second_feed(struct device *device, unsigned bit, bool high)
{
    (void)device;
    feed(machine_device("0")->state, 32 + bit, high);
}

const struct model lpc_gpio1_model = {.kind = "lpc_gpio1", .pin = second_pin, .feed = second_feed};

static void read_leads(const struct device *device, const char *key)
{
    const char *item;
    char name[16];

    for (unsigned n = 0; (item = device_item(device, key, n)) != NULL; n++) {
        struct lead *lead = &leads[lead_count++ % LEADS_MOST];

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
        iocon->words[place_count] = is_pair(places[place_count]) ? RESERVED_AS : RESERVED_AS | PULL_UP;
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
    uint32_t reserved = is_pair(pin) ? RESERVED & ~(uint32_t)PAIR_MODE : RESERVED;

    if (pin < 0 || (value & reserved) != (RESERVED_AS & reserved)) {
        machine_complain("a register of IOCON that is no pin's, or its reserved bits", device->base + offset);
        return;
    }
    iocon->words[offset / 4] = value;
}

const struct model lpc_iocon_model = {.kind = "lpc_iocon", .state_bytes = sizeof(struct iocon),
                                      .reset = iocon_reset, .read = iocon_read, .write = iocon_write};
