/*
 * A board around a simulated AVR: a two-wire sensor with pull-ups, a knob, a button, a lamp, a relay,
 * a sounder and a serial line.
 *
 *   board ELF PART HZ sda=B1 scl=B2 lamp=B3 sounder=B0 knob=2 address=0x48 valid=3450 SCRIPT
 *
 * Further: relay=!D2 (switched by a low level) mute=D3 transmit=B4 bit=104167 (nanoseconds; without a
 * bit the part's own serial ports are listened to) gap=50 (milliseconds without traffic that end a
 * reading; 1 where none is given).
 *
 * Its last argument is a script; see script.h.
 */
#include <inttypes.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <simavr/avr_adc.h>
#include <simavr/avr_eeprom.h>
#include <simavr/sim_avr.h>
#include <simavr/sim_elf.h>

#include "bus_checker.h"
#include "lines.h"
#include "missing.h"
#include "outputs.h"
#include "part.h"
#include "pins.h"
#include "script.h"
#include "sensor.h"
#include "serial.h"
#include "twi.h"
#include "waiting.h"

#define SUPPLY_MV 5000
#define SP_LOW 0x5D
#define SP_HIGH 0x5E

static avr_t *avr;
static uint64_t now_ns, gap_ns = 1000000;
static struct pin sda, scl, mute;
static struct pin lamp, relay, sounder;
static bool pressed;
static int knob = -1;

/* Pulls low, as an open drain does; drives nothing high. */
static bool pulls(struct pin pin)
{
    return pin_is_output(avr, pin) && !pin_latch(avr, pin);
}

static uint64_t ns_of(avr_cycle_count_t cycle)
{
    return (uint64_t)((double)cycle * 1e9 / avr->frequency);
}

static bool drives_high(struct pin pin)
{
    return pin_is_output(avr, pin) && pin_latch(avr, pin);
}

static void bus_step(void)
{
    avr_cycle_count_t at = avr->cycle;
    uint64_t ns = twi_step(avr, lines_sda(), &at) ? ns_of(at) : now_ns;
    bool pulls_sda = pulls(sda) || twi_pulls_sda();
    bool pulls_scl = pulls(scl) || twi_pulls_scl();

    if (drives_high(sda) || drives_high(scl)) {
        lines_driven_high(now_ns, drives_high(sda) ? "SDA" : "SCL");
    }
    if (lines_change(pulls_sda, pulls_scl) || !twi_is_calm() || !lines_calm()) {
        lines_pull(ns, pulls_sda, pulls_scl);
        twi_wait(avr, lines_scl());
    }
    pin_feed(avr, sda, lines_sda());
    pin_feed(avr, scl, lines_scl());
    if (mute.port != NULL) {
        pin_feed(avr, mute, !pressed);
    }
}

/* The lowest stack pointer; half of a 16-bit write, a jump of at least 128, does not count. */
static unsigned lowest_sp(void)
{
    static unsigned lowest, old;
    unsigned sp = avr->data[SP_LOW] | (unsigned)avr->data[SP_HIGH] << 8;

    if (lowest == 0) {
        lowest = avr->ramend;
        old = avr->ramend;
    }
    if (sp < lowest && old - sp < 128) {
        lowest = sp;
    }
    if (sp >= lowest) {
        old = sp;
    }
    return lowest;
}

uint64_t part_now(void)
{
    return now_ns;
}

bool part_step(uint64_t until)
{
    avr_cycle_count_t horizon = (avr_cycle_count_t)((double)until * avr->frequency / 1e9) + 1;
    avr_flashaddr_t from = avr->pc;
    int state;

    missing_before(avr, now_ns);
    waiting_before(avr);
    if (avr->state == cpu_Sleeping) {
        waiting_asleep(avr, horizon);
    }
    state = avr_run(avr);
    missing_after(avr);
    if (twi_is_calm() && lines_calm()) {
        waiting_after(avr, horizon);
    }
    now_ns = ns_of(avr->cycle);
    if (avr->pc == avr->reset_pc && from != avr->reset_pc) {
        printf("reset %" PRIu64 "\n", now_ns / 1000);
        missing_reset(avr);
        twi_reset(avr);
    }
    bus_step();
    checker_wait(now_ns);
    outputs_step(pin_is_on(avr, lamp), pin_is_on(avr, relay), pin_is_on(avr, sounder), now_ns);
    serial_step(avr, now_ns);
    (void)lowest_sp();
    if (state == cpu_Done || state == cpu_Crashed) {
        printf("crashed %" PRIu64 "\n", now_ns / 1000);
        return false;
    }
    return true;
}

void part_knob(unsigned mv)
{
    if (knob >= 0) {
        avr_raise_irq(avr_io_getirq(avr, AVR_IOCTL_ADC_GETIRQ, knob), mv);
    }
}

void part_press(bool down)
{
    pressed = down;
}

bool part_keep(uint8_t *bytes, unsigned count)
{
    avr_eeprom_desc_t kept = {.ee = bytes, .offset = 0, .size = count};

    /* This version answers -1 where it has done so, and -2 where it has not. */
    return avr_ioctl(avr, AVR_IOCTL_EEPROM_SET, &kept) == -1;
}

/* An EEPROM is written byte by byte, and its models have no half of one. */
bool part_cut(unsigned n)
{
    (void)n;
    return false;
}

static void no_sleep(avr_t *which, avr_cycle_count_t cycles)
{
    (void)which;
    (void)cycles;
}

static void begin(const char *elf, const char *part, uint32_t hz)
{
    static elf_firmware_t firmware;

    if (elf_read_firmware(elf, &firmware) != 0) {
        exit(2);
    }
    avr = avr_make_mcu_by_name(part);
    if (avr == NULL) {
        fprintf(stderr, "the simulator does not know %s\n", part);
        exit(2);
    }
    avr_init(avr);
    missing_begin(avr, part);
    avr_reset(avr);
    missing_reset(avr);
    twi_begin(avr);
    firmware.frequency = hz;
    avr_load_firmware(avr, &firmware);
    avr->frequency = hz;
    avr->vcc = avr->avcc = avr->aref = SUPPLY_MV;
    avr->sleep = no_sleep;
    avr->log = LOG_ERROR;
    /* One instruction at a time, so that no edge is missed. */
    avr->run_cycle_limit = 1;
}

static void wire(int count, char **options)
{
    unsigned address = 0, valid = 0, bit = 0;
    struct pin transmit = {0};

    for (int i = 0; i < count; i++) {
        char *value;
#define IS(key) ((value = script_after(key "=", options[i])) != NULL)
        if (IS("sda")) {
            sda = pin_of(avr, value);
        } else if (IS("scl")) {
            scl = pin_of(avr, value);
        } else if (IS("lamp")) {
            lamp = pin_of(avr, value);
        } else if (IS("relay")) {
            relay = pin_of(avr, value);
        } else if (IS("sounder")) {
            sounder = pin_of(avr, value);
        } else if (IS("mute")) {
            mute = pin_of(avr, value);
        } else if (IS("transmit")) {
            transmit = pin_of(avr, value);
        } else if (IS("bit")) {
            bit = (unsigned)strtoul(value, NULL, 0);
        } else if (IS("knob")) {
            knob = atoi(value);
        } else if (IS("address")) {
            address = (unsigned)strtoul(value, NULL, 0);
        } else if (IS("valid")) {
            valid = (unsigned)strtoul(value, NULL, 0);
        } else if (IS("gap")) {
            gap_ns = strtoul(value, NULL, 0) * UINT64_C(1000000);
        } else {
            fprintf(stderr, "not understood: %s\n", options[i]);
            exit(2);
        }
    }
    sensor_begin((uint8_t)address, valid);
    serial_begin_hardware(avr);
    if (bit != 0) {
        serial_begin_pin(transmit, bit);
    }
}

static void print_end(void)
{
    outputs_end();
    checker_print();
    printf("naps %u %u\n", missing_naps(false), missing_naps(true));
    printf("stack %u\n", avr->ramend - lowest_sp());
    printf("ended %" PRIu64 "\n", now_ns / 1000);
}

int main(int count, char **arguments)
{
    if (count < 5) {
        fprintf(stderr, "wants: ELF PART HZ key=value ... SCRIPT\n");
        return 2;
    }
    begin(arguments[1], arguments[2], (uint32_t)strtoul(arguments[3], NULL, 10));
    wire(count - 5, arguments + 4);
    script_play(arguments[count - 1], gap_ns);
    print_end();
    return 0;
}
