/*
 * The RTC of SAM D10, D11, D20 and D21: data sheet of SAM D21 (DS40001882), "RTC". Counts 32 bits up to COMP0
 * and begins again (MATCHCLR), undivided; nothing else. "Register Synchronization": what is written takes up to
 * six of its own clocks to arrive, and is not to be followed by more before that.
 */
#include "models.h"
#include "samd.h"

enum { CTRL = 0x00, INTENSET = 0x07, INTFLAG = 0x08, STATUS = 0x0A, COUNT = 0x10, COMP0 = 0x18 };
enum { SWRST = 1, ENABLE = 2, MATCHCLR = 0x80, CMP0 = 1, SYNCBUSY = 0x80 };
#define SYNC_TICKS 6

struct rtc {
    uint32_t control, compare, enabled, flags;
    uint64_t match_ns, settled_ns;
};

static uint64_t ticks_ns(const struct device *device, uint64_t ticks)
{
    return (uint64_t)((double)ticks * 1e9 / samd_clock(device));
}

static void count_from(struct device *device, uint64_t from_ns)
{
    struct rtc *rtc = device->state;

    rtc->match_ns = from_ns + ticks_ns(device, rtc->compare + UINT64_C(1));
}

static bool is_busy(const struct rtc *rtc)
{
    return machine_ns() < rtc->settled_ns;
}

static void sync(struct device *device)
{
    struct rtc *rtc = device->state;

    if (is_busy(rtc)) {
        machine_complain("the RTC is written while it is busy", device->base);
    }
    rtc->settled_ns = machine_ns() + ticks_ns(device, SYNC_TICKS);
}

/* 19.6.2.2: reset only while it stands; all but ENABLE is kept from changes while it runs. */
static void write_control(struct device *device, uint32_t value)
{
    struct rtc *rtc = device->state;
    bool runs = (rtc->control & ENABLE) != 0;

    sync(device);
    if (value == SWRST && !runs) {
        rtc->control = rtc->compare = rtc->enabled = rtc->flags = 0;
    } else if (value == (MATCHCLR | ENABLE) && !runs) {
        rtc->control = value;
        count_from(device, rtc->settled_ns);
    } else if ((value ^ rtc->control) == ENABLE && runs) {
        rtc->control = value;
    } else if (value != rtc->control) {
        machine_complain("the RTC is set to what has no model, or while it runs", device->base);
    }
}

static void write(struct device *device, uint32_t offset, uint32_t value, unsigned bytes)
{
    struct rtc *rtc = device->state;

    if (offset == CTRL && bytes == 2) {
        write_control(device, value);
    } else if (offset == INTENSET && bytes == 1) {
        rtc->enabled |= value;
    } else if (offset == INTFLAG && bytes == 1) {
        rtc->flags &= ~value;
    } else if (offset == COUNT && bytes == 4 && value == 0) {
        sync(device);
        count_from(device, rtc->settled_ns);
    } else if (offset == COMP0 && bytes == 4) {
        sync(device);
        rtc->compare = value;
    } else {
        machine_complain("a write that the RTC does not know", device->base + offset);
    }
}

static uint32_t read(struct device *device, uint32_t offset, unsigned bytes)
{
    const struct rtc *rtc = device->state;

    (void)bytes;
    if (offset == STATUS && is_busy(rtc)) {
        machine_read_moving();
        return SYNCBUSY;
    }
    return offset == CTRL ? rtc->control : offset == INTFLAG ? rtc->flags : 0;
}

static uint64_t due(const struct device *device)
{
    const struct rtc *rtc = device->state;

    return (rtc->control & ENABLE) != 0 ? machine_cycle_of(rtc->match_ns) : NEVER;
}

static void step(struct device *device)
{
    struct rtc *rtc = device->state;

    count_from(device, rtc->match_ns);
    rtc->flags |= CMP0;
}

static unsigned asks(const struct device *device)
{
    const struct rtc *rtc = device->state;

    return (rtc->flags & rtc->enabled) != 0;
}

static void stop(struct device *device)
{
    const struct rtc *rtc = device->state;

    if (!samd_clock_goes_on(device) || is_busy(rtc)) {
        machine_complain("Standby stops the RTC's clock, or its bus before a write has arrived", device->base);
    }
}

const struct model rtc_samd_model = {
    .kind = "rtc_samd", .state_bytes = sizeof(struct rtc), .read_bytes = read, .write_bytes = write,
    .due = due, .step = step, .goes_on = true, .stop = stop, .asks = asks};
