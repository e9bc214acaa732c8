/*
 * A general timer, counting up: RM0091 (STM32F0), sections 17 to 20; the same in STM32F1 (RM0008), CH32V
 * and GD32VF103. Output compare: frozen, set, clear, toggle, PWM 1 and 2. No capture, no slave mode.
 */
#include <string.h>

#include "models.h"

#define CHANNELS 4

enum { CR1 = 0x00, DIER = 0x0C, SR = 0x10, EGR = 0x14, CCMR1 = 0x18, CCMR2 = 0x1C, CCER = 0x20,
       CNT = 0x24, PSC = 0x28, ARR = 0x2C, CCR1 = 0x34, BDTR = 0x44, LAST = 0x50 };
enum { CEN = 1u << 0, URS = 1u << 2, OPM = 1u << 3, UIF = 1u << 0, UG = 1u << 0 };

struct timer {
    uint32_t registers[LAST / 4 + 1];
    uint32_t prescaler, count;
    uint64_t counted_at;
    bool output[CHANNELS];
};

static uint32_t *at(struct timer *timer, uint32_t offset)
{
    return &timer->registers[offset / 4];
}

static uint32_t get(const struct timer *timer, uint32_t offset)
{
    return timer->registers[offset / 4];
}

static bool runs(const struct timer *timer)
{
    return (get(timer, CR1) & CEN) != 0;
}

static unsigned mode(const struct timer *timer, unsigned channel)
{
    return get(timer, channel < 2 ? CCMR1 : CCMR2) >> (8 * (channel % 2) + 4) & 7;
}

static uint32_t compare(const struct timer *timer, unsigned channel)
{
    return get(timer, CCR1 + 4 * channel);
}

/* Counts from now to the next that matters: a compare value, or the first after ARR. */
static uint64_t counts_to_event(const struct timer *timer)
{
    uint64_t counts = timer->count > get(timer, ARR) ? 0x10000u - timer->count
                                                     : get(timer, ARR) - timer->count + 1;

    for (unsigned i = 0; i < CHANNELS; i++) {
        bool wanted = (get(timer, CCER) >> 4 * i & 1) != 0 || (get(timer, DIER) >> (1 + i) & 1) != 0;

        if (wanted && compare(timer, i) > timer->count && compare(timer, i) - timer->count < counts) {
            counts = compare(timer, i) - timer->count;
        }
    }
    return counts;
}

static uint64_t due(const struct device *device)
{
    const struct timer *timer = device->state;

    if (!runs(timer) || get(timer, ARR) == 0) {
        return NEVER;
    }
    return timer->counted_at + counts_to_event(timer) * (timer->prescaler + UINT64_C(1));
}

static void match(struct timer *timer, unsigned channel)
{
    *at(timer, SR) |= 2u << channel;
    switch (mode(timer, channel)) {
    case 1:
        timer->output[channel] = true;
        break;
    case 2:
        timer->output[channel] = false;
        break;
    case 3:
        timer->output[channel] = !timer->output[channel];
        break;
    default:
        break;
    }
}

static void update_pwm(struct timer *timer)
{
    for (unsigned i = 0; i < CHANNELS; i++) {
        if (mode(timer, i) >= 6) {
            timer->output[i] = (timer->count < compare(timer, i)) == (mode(timer, i) == 6);
        } else if (mode(timer, i) >= 4) {
            timer->output[i] = mode(timer, i) == 5;
        }
    }
}

static void at_count(struct timer *timer)
{
    for (unsigned i = 0; i < CHANNELS; i++) {
        if (compare(timer, i) == timer->count) {
            match(timer, i);
        }
    }
    update_pwm(timer);
}

static void step(struct device *device)
{
    struct timer *timer = device->state;
    uint64_t counts = counts_to_event(timer);

    timer->counted_at += counts * (timer->prescaler + UINT64_C(1));
    timer->count += (uint32_t)counts;
    if (timer->count > get(timer, ARR)) {
        timer->count = 0;
        timer->prescaler = get(timer, PSC);
        *at(timer, SR) |= UIF;
        if ((get(timer, CR1) & OPM) != 0) {
            *at(timer, CR1) &= ~(uint32_t)CEN;
        }
    }
    at_count(timer);
}

/* The count as it is now, between events. */
static void catch_up(struct timer *timer)
{
    uint64_t counts = (machine_cycle() - timer->counted_at) / (timer->prescaler + UINT64_C(1));

    if (!runs(timer)) {
        timer->counted_at = machine_cycle();
        return;
    }
    timer->count += (uint32_t)counts;
    timer->counted_at += counts * (timer->prescaler + UINT64_C(1));
}

static void reset(struct device *device)
{
    *at(device->state, ARR) = 0xFFFF;
}

static uint32_t read(struct device *device, uint32_t offset)
{
    struct timer *timer = device->state;

    if (offset == CNT) {
        if (runs(timer)) {
            machine_read_moving();
        }
        catch_up(timer);
        return timer->count;
    }
    return offset <= LAST ? get(timer, offset) : 0;
}

static void generate(struct timer *timer)
{
    timer->count = 0;
    timer->counted_at = machine_cycle();
    timer->prescaler = get(timer, PSC);
    if ((get(timer, CR1) & URS) == 0) {
        *at(timer, SR) |= UIF;
    }
    update_pwm(timer);
}

static void write(struct device *device, uint32_t offset, uint32_t value)
{
    struct timer *timer = device->state;

    catch_up(timer);
    if (offset == SR) {
        *at(timer, SR) &= value;
    } else if (offset == EGR) {
        if ((value & UG) != 0) {
            generate(timer);
        }
    } else if (offset == CNT) {
        timer->count = value;
        timer->counted_at = machine_cycle();
    } else if (offset <= LAST) {
        *at(timer, offset) = value;
        update_pwm(timer);
    }
}

static unsigned asks(const struct device *device)
{
    const struct timer *timer = device->state;

    return (get(timer, SR) & get(timer, DIER) & 0x1F) != 0;
}

static bool drives(const struct device *device, const char *signal, bool *high)
{
    const struct timer *timer = device->state;
    unsigned channel = (unsigned)(signal[2] - '1') % CHANNELS;
    uint32_t enable = get(timer, CCER) >> 4 * channel;
    bool main_output = device_option(device, "break", 0) == 0 || (get(timer, BDTR) & 1u << 15) != 0;

    *high = timer->output[channel] != ((enable & 2) != 0);
    return (enable & 1) != 0 && main_output;
}

const struct model timer_model = {
    .kind = "timer", .state_bytes = sizeof(struct timer), .reset = reset, .read = read,
    .write = write, .due = due, .step = step, .asks = asks, .drives = drives};
