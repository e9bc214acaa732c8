/*
 * The RTC of STM32F1, a counter of 32 bits with an alarm: RM0008, 18.3 and 18.4; CH32V103 and CH32V203 alike; all from
 * memory. On the slow oscillator only. What is written between CNF and its end is taken by RTOFF, three clocks later.
 */
#include "exti.h"
#include "models.h"

enum { CRH = 0x00, CRL = 0x04, PRLH = 0x08, PRLL = 0x0C, CNTH = 0x18, CNTL = 0x1C, ALRH = 0x20, ALRL = 0x24 };
enum { ALRF = 1u << 1, CNF = 1u << 4, RTOFF = 1u << 5 };
enum { BDCR = 0x20, CHOICE = 0x8300, LSI_CHOSEN = 0x8200, CSR = 0x24, LSION = 1 };
enum { DBP = 1u << 8, PDDS = 1u << 1 };
#define SYNC_CLOCKS 3
#define ALARM_LINE 17

struct rtc {
    uint32_t prescaler, count, alarm;
    bool configures, alarmed;
    uint64_t alarm_ns, taken_ns;
};

static uint64_t clocks_ns(const struct device *device, uint64_t count)
{
    return count * 1000000000 / device_option(device, "lsi", 40000);
}

static bool clocked(void)
{
    struct device *rcc = machine_device("rcc");

    return (rcc->model->read(rcc, BDCR) & CHOICE) == LSI_CHOSEN && (rcc->model->read(rcc, CSR) & LSION) != 0;
}

static uint64_t count_ns(const struct device *device)
{
    return clocks_ns(device, ((const struct rtc *)device->state)->prescaler + UINT64_C(1));
}

static void reset(struct device *device)
{
    struct rtc *rtc = device->state;

    rtc->prescaler = 0x8000;
    rtc->alarm = 0xFFFFFFFF;
    rtc->alarm_ns = NEVER;
}

/* A prescaler of 0 is not recommended: 18.4.3. */
static void take(struct device *device)
{
    struct rtc *rtc = device->state;

    if (rtc->prescaler == 0) {
        machine_complain("the RTC is not divided", device->base + PRLL);
    }
    rtc->taken_ns = machine_ns() + clocks_ns(device, SYNC_CLOCKS);
    rtc->alarm_ns = rtc->alarm > rtc->count ? rtc->taken_ns + (rtc->alarm - rtc->count) * count_ns(device) : NEVER;
}

static bool is_off(const struct rtc *rtc)
{
    return machine_ns() >= rtc->taken_ns;
}

static void write_crl(struct device *device, uint32_t value)
{
    struct rtc *rtc = device->state;
    bool configures = (value & CNF) != 0;

    rtc->alarmed = rtc->alarmed && (value & ALRF) != 0;
    if (rtc->configures && !configures) {
        take(device);
    }
    rtc->configures = configures;
}

static uint32_t *half_of(struct rtc *rtc, uint32_t offset)
{
    return offset == PRLH || offset == PRLL ? &rtc->prescaler : offset == CNTH || offset == CNTL ? &rtc->count
           : offset == ALRH || offset == ALRL ? &rtc->alarm : NULL;
}

static void write(struct device *device, uint32_t offset, uint32_t value)
{
    struct rtc *rtc = device->state;
    struct device *power = machine_device("pwr");
    uint32_t *whole = half_of(rtc, offset);
    bool high = offset == PRLH || offset == CNTH || offset == ALRH;

    if (!clocked() || (power->model->read(power, 0) & DBP) == 0) {
        machine_complain("the RTC is written without its clock, or without access to it", device->base + offset);
    }
    if (offset == CRH) {
        return;
    }
    if (!is_off(rtc) || (whole != NULL && !rtc->configures)) {
        machine_complain("the RTC is written before it is ready for it", device->base + offset);
    }
    if (offset == CRL) {
        write_crl(device, value);
    } else if (whole != NULL) {
        *whole = high ? (*whole & 0xFFFF) | value << 16 : (*whole & ~0xFFFFu) | (value & 0xFFFF);
    } else {
        machine_complain("a register of the RTC that has no model", device->base + offset);
    }
}

static uint32_t read(struct device *device, uint32_t offset)
{
    const struct rtc *rtc = device->state;

    if (offset != CRL) {
        return 0;
    }
    if (!is_off(rtc)) {
        machine_read_moving();
    }
    return (rtc->alarmed ? ALRF : 0) | (rtc->configures ? CNF : 0) | (is_off(rtc) ? RTOFF : 0);
}

static uint64_t due(const struct device *device)
{
    const struct rtc *rtc = device->state;

    return rtc->alarm_ns == NEVER || !clocked() ? NEVER : machine_cycle_of(rtc->alarm_ns);
}

/* The line goes up with the flag: no second time while that is set. */
static void step(struct device *device)
{
    struct rtc *rtc = device->state;

    rtc->alarm_ns = NEVER;
    if (!rtc->alarmed) {
        rtc->alarmed = true;
        exti_pulse(ALARM_LINE);
    }
}

static void stop(struct device *device)
{
    struct device *power = machine_device("pwr");

    if (!is_off(device->state)) {
        machine_complain("the part stops before the RTC has taken what was written", device->base);
    }
    if ((power->model->read(power, 0) & PDDS) != 0) {
        machine_complain("Standby forgets what is in RAM", power->base);
    }
}

const struct model rtc_counter_model = {
    .kind = "rtc_counter", .state_bytes = sizeof(struct rtc), .reset = reset, .read = read, .write = write,
    .due = due, .step = step, .goes_on = true, .stop = stop};
