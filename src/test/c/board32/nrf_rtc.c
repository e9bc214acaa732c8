/*
 * nRF51: the counter of the slow clock (reference manual v3.0, chapter RTC), as far as its first compare goes, which
 * makes its interrupt pending. The slow clock is started in CLOCK, or by nobody.
 */
#include "nrf.h"
#include "nvic.h"

enum { START = 0x000, STOP = 0x004, CLEAR = 0x008, COMPARE0 = 0x140, PRESCALER = 0x508, CC0 = 0x540 };
enum { LFCLKSTARTED = 0x104 };
#define INTENSET_COMPARE0 (1u << 16)
#define LF_HZ 32768

struct rtc {
    struct nrf nrf;
    bool runs;
    uint64_t from_ns, match_ns;
};

/* The counter goes on behind the compare, and meets it again after 24 bits only. */
static void count_from_now(struct device *device)
{
    struct rtc *rtc = device->state;

    rtc->from_ns = machine_ns();
    rtc->match_ns = rtc->from_ns + nrf_get(device, CC0) * UINT64_C(1000000000) / LF_HZ;
}

static void write(struct device *device, uint32_t offset, uint32_t value)
{
    struct rtc *rtc = device->state;

    if (offset == START) {
        if (nrf_get(machine_device("clock"), LFCLKSTARTED) == 0) {
            machine_complain("the counter of the slow clock is started without that clock", device->base);
        }
        rtc->runs = true;
        count_from_now(device);
    } else if (offset == STOP) {
        rtc->runs = false;
    } else if (offset == CLEAR) {
        count_from_now(device);
    } else {
        if (rtc->runs && (offset == PRESCALER || offset == CC0)) {
            machine_complain("the counter of the slow clock is set while it runs", device->base + offset);
        }
        nrf_write(device, offset, value);
    }
}

static uint64_t due(const struct device *device)
{
    const struct rtc *rtc = device->state;

    return rtc->runs && rtc->match_ns != NEVER ? machine_cycle_of(rtc->match_ns) : NEVER;
}

static void step(struct device *device)
{
    ((struct rtc *)device->state)->match_ns = NEVER;
    nrf_event(device, COMPARE0);
    if ((nrf_get(device, NRF_INTENSET) & INTENSET_COMPARE0) != 0) {
        nvic_pends(device->interrupts[0]);
    }
}

const struct model nrf_rtc_model = {
    .kind = "nrf_rtc", .state_bytes = sizeof(struct rtc), .read = nrf_read, .write = write,
    .due = due, .step = step, .goes_on = true};
