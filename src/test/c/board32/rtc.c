/*
 * The real-time clock of STM32, as far as its alarm in each second goes: RM0377 (STM32L0), RM0091 (STM32F0), RM0444
 * (STM32G0), RM0490 (STM32C0), chapter "Real-time clock". On the slow oscillator only; the calendar is not
 * kept, an alarm for a date has no model. `new=1`: registers as in STM32G0. `select` is where in `rcc` its source is
 * chosen, `chosen` what that and `mask` must give, `lsi_at` where the oscillator is switched on; `line` of EXTI.
 */
#include "exti.h"
#include "models.h"

enum { ISR = 0x0C, PRER = 0x10, WPR = 0x24, OLD_CR = 0x08, OLD_ALRMAR = 0x1C, NEW_CR = 0x18,
       NEW_ALRMAR = 0x40, NEW_SR = 0x50, NEW_SCR = 0x5C };
enum { ALRAWF = 1u << 0, INITF = 1u << 6, INIT = 1u << 7, ALRAF = 1u << 8, ALRAE = 1u << 8,
       ALRAIE = 1u << 12, DBP = 1u << 8 };
#define ANY 0x80808080u
#define INIT_CLOCKS 2

struct rtc {
    uint32_t control, prescaler, alarm;
    unsigned keys;
    bool init, ready, alarmed;
    uint64_t next_ns, ready_ns;
};

static uint64_t clocks_ns(const struct device *device, uint64_t count)
{
    return count * 1000000000 / device_option(device, "lsi", 32000);
}

static bool clocked(const struct device *device)
{
    struct device *rcc = machine_device("rcc");
    uint32_t mask = device_option(device, "mask", 0);

    return (rcc->model->read(rcc, device_option(device, "select", 0)) & mask) ==
               device_option(device, "chosen", 1) &&
           (rcc->model->read(rcc, device_option(device, "lsi_at", 0)) & 1) != 0;
}

static uint64_t second_ns(const struct device *device)
{
    const struct rtc *rtc = device->state;

    return clocks_ns(device, ((rtc->prescaler >> 16 & 0x7F) + UINT64_C(1)) *
                                 ((rtc->prescaler & 0x7FFF) + 1));
}

static void reset(struct device *device)
{
    struct rtc *rtc = device->state;

    rtc->prescaler = 127u << 16 | 255;
    rtc->next_ns = NEVER;
}

static bool is_new(const struct device *device)
{
    return device_option(device, "new", 0) != 0;
}

static uint32_t read(struct device *device, uint32_t offset)
{
    const struct rtc *rtc = device->state;
    bool is_old = !is_new(device);

    if (offset == ISR) {
        return ((rtc->control & ALRAE) == 0 ? ALRAWF : 0) | (rtc->init ? INIT : 0) |
               (rtc->ready ? INITF : 0) | (is_old && rtc->alarmed ? ALRAF : 0);
    }
    if (offset == NEW_SR && !is_old) {
        return rtc->alarmed;
    }
    return offset == PRER ? rtc->prescaler : offset == (is_old ? OLD_CR : NEW_CR) ? rtc->control
           : offset == (is_old ? OLD_ALRMAR : NEW_ALRMAR) ? rtc->alarm : 0;
}

static void write_isr(struct device *device, uint32_t value)
{
    struct rtc *rtc = device->state;
    bool init = (value & INIT) != 0;

    if (init && !rtc->init) {
        rtc->ready_ns = machine_ns() + clocks_ns(device, INIT_CLOCKS);
        rtc->next_ns = NEVER;
    } else if (!init && rtc->init) {
        rtc->ready = false;
        rtc->next_ns = machine_ns() + second_ns(device);
    }
    rtc->init = init;
    rtc->alarmed = rtc->alarmed && (is_new(device) || (value & ALRAF) != 0);
}

/* Both dividers at once are not taken: "Calendar initialization and configuration". */
static void write_prescaler(struct device *device, uint32_t value)
{
    struct rtc *rtc = device->state;
    uint32_t changed = rtc->prescaler ^ value;

    if (!rtc->ready) {
        machine_complain("the dividers of the RTC are set while it counts", device->base + PRER);
    }
    rtc->prescaler = (changed & 0x7FFF) != 0 ? (rtc->prescaler & ~0x7FFFu) | (value & 0x7FFF) : value;
}

static void write_alarm(struct device *device, uint32_t value)
{
    struct rtc *rtc = device->state;

    if ((rtc->control & ALRAE) != 0 || value != ANY) {
        machine_complain("an alarm that is on is set, or one that has no model", device->base);
    }
    rtc->alarm = value;
}

static bool may_write(struct device *device, uint32_t offset, uint32_t value)
{
    struct rtc *rtc = device->state;
    struct device *power = machine_device("pwr");

    if (!clocked(device)) {
        machine_complain("the RTC is written without its clock", device->base + offset);
    }
    if (device_option(device, "open", 0) == 0 && (power->model->read(power, 0) & DBP) == 0) {
        machine_complain("the RTC is written without access to it", device->base + offset);
    }
    if (offset == WPR) {
        rtc->keys = value == 0xCA ? 1 : value == 0x53 && rtc->keys == 1 ? 2 : 0;
    } else if (rtc->keys != 2 && offset != NEW_SCR) {
        machine_complain("the RTC is written while it is locked", device->base + offset);
    }
    return rtc->keys == 2 || offset == NEW_SCR;
}

static void write(struct device *device, uint32_t offset, uint32_t value)
{
    struct rtc *rtc = device->state;
    bool is_old = !is_new(device);

    if (!may_write(device, offset, value) || offset == WPR) {
        return;
    }
    if (offset == ISR) {
        write_isr(device, value);
    } else if (offset == PRER) {
        write_prescaler(device, value);
    } else if (offset == (is_old ? OLD_CR : NEW_CR)) {
        rtc->control = value;
    } else if (offset == (is_old ? OLD_ALRMAR : NEW_ALRMAR)) {
        write_alarm(device, value);
    } else if (offset == NEW_SCR && !is_old && (value & 1) != 0) {
        rtc->alarmed = false;
    }
}

static uint64_t due(const struct device *device)
{
    const struct rtc *rtc = device->state;
    bool waits = rtc->init && !rtc->ready;
    uint64_t ns = waits ? rtc->ready_ns : rtc->next_ns;

    return ns == NEVER || !clocked(device) ? NEVER : machine_cycle_of(ns);
}

/* The line is high for as long as the flag is, so it pulses where the flag was clear. */
static void step(struct device *device)
{
    struct rtc *rtc = device->state;

    if (rtc->init) {
        rtc->ready = true;
        return;
    }
    rtc->next_ns += second_ns(device);
    if ((rtc->control & ALRAE) != 0 && rtc->alarm == ANY && !rtc->alarmed) {
        rtc->alarmed = true;
        if ((rtc->control & ALRAIE) != 0) {
            exti_pulse(device_option(device, "line", 17));
            pwr_woken();
        }
    }
}

const struct model rtc_model = {
    .kind = "rtc", .state_bytes = sizeof(struct rtc), .reset = reset, .read = read, .write = write,
    .due = due, .step = step, .goes_on = true};
