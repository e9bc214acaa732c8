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
 * Its last argument is a script, a line for each reading or event between two readings:
 *
 *   frame 0D 80      the next reading gives these bytes
 *   nack             the next reading is not answered
 *   refuse           the next reading's address is acknowledged, what is written then is not
 *   knob 2500        millivolts
 *   press, release   the mute button
 *   wait 300         milliseconds
 *   stretch 300000   the sensor holds the clock for so many nanoseconds after each byte it takes
 *   midbyte          the sensor was cut off while it was sending zeros
 *   hold data 1500   the line is held low for so many milliseconds; or: hold clock 1500
 *   eeprom 20 03 86  what the EEPROM holds, from its first byte on
 *
 * Standard output says what the board saw, a line for each event, in microseconds; it judges nothing
 * but the rules of the bus.
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
#include "missing.h"
#include "outputs.h"
#include "pins.h"
#include "sensor.h"
#include "serial.h"
#include "twi.h"
#include "waiting.h"

#define SUPPLY_MV 5000
#define SP_LOW 0x5D
#define SP_HIGH 0x5E
#define NEVER UINT64_C(20000000000)
/* No reading takes so long. */
#define STUCK UINT64_C(2000000000)
/* A firmware may give up on a sensor that holds the clock for longer: SMBus 3.2, tTIMEOUT. */
#define PATIENCE_NS 25000000u

static avr_t *avr;
static uint64_t now_ns, horizon_ns, gap_ns = 1000000, stretch_ns;
static struct pin sda, scl, mute;
static struct outputs outputs;
static bool pressed;
static int knob = -1;

static void complain(struct pin pin, const char *violation)
{
    static bool said;

    if (pin_is_output(avr, pin) && pin_latch(avr, pin) && !said) {
        said = true;
        checker_violation(now_ns, violation);
    }
}

/* Pulls low, as an open drain does; drives nothing high. */
static bool pulls(struct pin pin)
{
    return pin_is_output(avr, pin) && !pin_latch(avr, pin);
}

static uint64_t ns_of(avr_cycle_count_t cycle)
{
    return (uint64_t)((double)cycle * 1e9 / avr->frequency);
}

/* What the firmware pulls low, and the lines as they are. */
static bool master_sda, master_scl, sda_high = true, scl_high = true;

/* Nothing on the board will move unless the part does something. */
static bool is_calm(void)
{
    return twi_is_calm() && sensor_is_calm() && sda_high == !(master_sda || sensor_pulls_sda()) &&
           scl_high == !(master_scl || sensor_pulls_scl());
}

/* The lines as they become, and what the sensor makes of them. */
static void settle(uint64_t ns, bool by_master)
{
    sda_high = !master_sda && !sensor_pulls_sda();
    scl_high = !master_scl && !sensor_pulls_scl();
    checker_see(ns, sda_high, scl_high, by_master);
    sensor_see(ns, sda_high, scl_high);
}

static void move_lines(uint64_t ns, bool new_sda, bool new_scl)
{
    bool moved = new_sda != master_sda;

    /* What the sensor still had to do comes first, and its answer last. */
    settle(ns, false);
    settle(ns, false);
    master_sda = new_sda;
    master_scl = new_scl;
    settle(ns, moved);
    settle(ns, false);
    checker_clock(ns, master_scl, scl_high, sensor_stretches() && stretch_ns < PATIENCE_NS);
    twi_wait(avr, scl_high);
}

static void bus_step(void)
{
    avr_cycle_count_t at = avr->cycle;
    uint64_t ns = twi_step(avr, sda_high, &at) ? ns_of(at) : now_ns;
    bool new_sda = pulls(sda) || twi_pulls_sda();
    bool new_scl = pulls(scl) || twi_pulls_scl();

    complain(sda, "SDA is driven high");
    complain(scl, "SCL is driven high");
    if (new_sda != master_sda || new_scl != master_scl || !is_calm()) {
        move_lines(ns, new_sda, new_scl);
    }
    pin_feed(avr, sda, sda_high);
    pin_feed(avr, scl, scl_high);
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

static avr_cycle_count_t horizon(void)
{
    return (avr_cycle_count_t)((double)horizon_ns * avr->frequency / 1e9) + 1;
}

static bool simulate_one(void)
{
    avr_flashaddr_t from = avr->pc;
    int state;

    missing_before(avr, now_ns);
    waiting_before(avr);
    if (avr->state == cpu_Sleeping) {
        waiting_asleep(avr, horizon());
    }
    state = avr_run(avr);
    missing_after(avr);
    if (is_calm()) {
        waiting_after(avr, horizon());
    }
    now_ns = ns_of(avr->cycle);
    if (avr->pc == avr->reset_pc && from != avr->reset_pc) {
        printf("reset %" PRIu64 "\n", now_ns / 1000);
        missing_reset(avr);
        twi_reset(avr);
    }
    bus_step();
    checker_wait(now_ns);
    outputs_step(avr, &outputs, now_ns);
    serial_step(avr, now_ns);
    (void)lowest_sp();
    if (state == cpu_Done || state == cpu_Crashed) {
        printf("crashed %" PRIu64 "\n", now_ns / 1000);
        return false;
    }
    return true;
}

static bool run_until(uint64_t ns)
{
    horizon_ns = ns;
    while (now_ns < ns) {
        if (!simulate_one()) {
            return false;
        }
    }
    return true;
}

/* Until the bus has or has not a transaction, or until so late; false where the part has stopped. */
static bool run_until_bus(bool busy, uint64_t ns)
{
    horizon_ns = ns;
    while (checker_in_transaction() != busy && now_ns < ns) {
        if (!simulate_one()) {
            return false;
        }
    }
    return true;
}

static void print_asked(void)
{
    const uint8_t *asked;
    unsigned count = sensor_asked(&asked);

    printf("asked");
    for (unsigned i = 0; i < count; i++) {
        printf(" %02x", asked[i]);
    }
    printf("\n");
}

static bool run_to_reading(const char *word)
{
    if (!run_until_bus(true, now_ns + NEVER)) {
        return false;
    }
    printf("%s %" PRIu64 "\n", checker_in_transaction() ? word : "silent", now_ns / 1000);
    return checker_in_transaction();
}

/* From the idle bus through the transactions of one reading to the last STOP, and the gap after it. */
static bool run_through_reading(void)
{
    uint64_t stopped, limit;

    if (!run_to_reading("reading")) {
        return false;
    }
    limit = now_ns + STUCK;
    do {
        if (!run_until_bus(false, limit)) {
            return false;
        }
        if (checker_in_transaction() || now_ns >= limit) {
            printf("silent %" PRIu64 "\n", now_ns / 1000);
            return false;
        }
        stopped = now_ns;
        if (!run_until_bus(true, stopped + gap_ns)) {
            return false;
        }
    } while (checker_in_transaction());
    printf("stop %" PRIu64 "\n", stopped / 1000);
    print_asked();
    return true;
}

static unsigned bytes_of(char *text, uint8_t *bytes)
{
    unsigned count = 0;

    for (char *word = strtok(text, " \n"); word != NULL && count < FRAME_MOST;
         word = strtok(NULL, " \n")) {
        bytes[count++] = (uint8_t)strtoul(word, NULL, 16);
    }
    return count;
}

static void turn_knob(unsigned mv)
{
    if (knob >= 0) {
        avr_raise_irq(avr_io_getirq(avr, AVR_IOCTL_ADC_GETIRQ, knob), mv);
    }
}

static bool hold(const char *what)
{
    bool clock = strncmp(what, "clock", 5) == 0;
    bool good;

    sensor_hold(!clock, clock);
    good = run_until(now_ns + strtoull(strchr(what, ' '), NULL, 10) * 1000000u);
    sensor_hold(false, false);
    return good && run_until(now_ns + 1000000u);
}

static bool press(bool now)
{
    pressed = now;
    return true;
}

static bool fill_eeprom(char *text)
{
    uint8_t bytes[FRAME_MOST];
    avr_eeprom_desc_t kept = {.ee = bytes, .offset = 0, .size = bytes_of(text, bytes)};

    /* This version answers -1 where it has done so, and -2 where it has not. */
    return avr_ioctl(avr, AVR_IOCTL_EEPROM_SET, &kept) == -1;
}

/* What a line of the script starts with, or null. */
static char *after(const char *word, char *line)
{
    size_t length = strlen(word);

    return strncmp(line, word, length) == 0 ? line + length : NULL;
}

static bool play(char *line)
{
    uint8_t bytes[FRAME_MOST];
    char *rest;

    sensor_mood(strncmp(line, "nack", 4) == 0, strncmp(line, "refuse", 6) == 0);
    if ((rest = after("frame ", line)) != NULL) {
        sensor_frame(bytes, bytes_of(rest, bytes));
        return run_through_reading();
    }
    if (after("nack", line) != NULL || after("refuse", line) != NULL) {
        return run_through_reading();
    }
    if ((rest = after("knob ", line)) != NULL) {
        turn_knob((unsigned)strtoul(rest, NULL, 10));
        return true;
    }
    if (after("press", line) != NULL || after("release", line) != NULL) {
        return press(line[0] == 'p');
    }
    if ((rest = after("wait ", line)) != NULL) {
        return run_until(now_ns + strtoull(rest, NULL, 10) * 1000000u);
    }
    if ((rest = after("stretch ", line)) != NULL) {
        stretch_ns = strtoull(rest, NULL, 10);
        sensor_stretch(stretch_ns);
        return true;
    }
    if (after("midbyte", line) != NULL) {
        sensor_stuck_in_byte();
        return true;
    }
    if ((rest = after("hold ", line)) != NULL) {
        return hold(rest);
    }
    if ((rest = after("eeprom ", line)) != NULL) {
        return fill_eeprom(rest);
    }
    fprintf(stderr, "not understood: %s", line);
    exit(2);
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
#define IS(key) ((value = after(key "=", options[i])) != NULL)
        if (IS("sda")) {
            sda = pin_of(avr, value);
        } else if (IS("scl")) {
            scl = pin_of(avr, value);
        } else if (IS("lamp")) {
            outputs.lamp = pin_of(avr, value);
        } else if (IS("relay")) {
            outputs.relay = pin_of(avr, value);
        } else if (IS("sounder")) {
            outputs.sounder = pin_of(avr, value);
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
    char line[1024];
    bool good = true;
    FILE *script;

    if (count < 5) {
        fprintf(stderr, "wants: ELF PART HZ key=value ... SCRIPT\n");
        return 2;
    }
    begin(arguments[1], arguments[2], (uint32_t)strtoul(arguments[3], NULL, 10));
    wire(count - 5, arguments + 4);
    script = fopen(arguments[count - 1], "r");
    while (good && script != NULL && fgets(line, sizeof line, script) != NULL) {
        good = play(line);
    }
    /* The state after the last reading lasts until the next. */
    good = good && run_to_reading("next");
    print_end();
    return 0;
}
