/*
 * A board around a simulated AVR: a two-wire sensor with pull-ups, a knob, a lamp and a sounder.
 *
 *   board ELF PART HZ sda=B1 scl=B2 lamp=B3 sounder=B0 knob=2 address=0x48 valid=3450 SCRIPT
 *
 * Its last argument is a script, a line for each reading or event between two readings:
 *
 *   frame 0D 80      the next reading gives these bytes
 *   nack             the next reading is not answered
 *   knob 2500        millivolts
 *   midbyte          the sensor was cut off while it was sending zeros
 *   hold data 1500   the line is held low for so many milliseconds; or: hold clock 1500
 *
 * Standard output says what the board saw, a line for each event, in microseconds; it judges nothing.
 */
#include <ctype.h>
#include <inttypes.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <simavr/avr_adc.h>
#include <simavr/avr_ioport.h>
#include <simavr/sim_avr.h>
#include <simavr/sim_elf.h>

#include "bus_checker.h"
#include "missing.h"
#include "sensor.h"
#include "twi.h"

#define SUPPLY_MV 5000
#define SP_LOW 0x5D
#define SP_HIGH 0x5E
/* A tone of more than 250 Hz has ended when there was no edge for so long. */
#define TONE_GAP_NS 2000000u
/* What a script does between two readings happens so long after the STOP. */
#define PAUSE_NS 1000000u

struct pin {
    const avr_ioport_t *port;
    uint8_t mask;
};

static avr_t *avr;
static uint64_t now_ns;
static struct pin sda, scl, lamp, sounder;
static int knob = -1;

static struct pin pin_of(const char *name)
{
    for (avr_io_t *io = avr->io_port; io != NULL; io = io->next) {
        if (strcmp(io->kind, "port") == 0 && ((avr_ioport_t *)io)->name == name[0]) {
            return (struct pin){(avr_ioport_t *)io, (uint8_t)(1 << (name[1] - '0'))};
        }
    }
    fprintf(stderr, "no pin %s\n", name);
    exit(2);
}

static bool is_output(struct pin pin)
{
    return (avr->data[pin.port->r_ddr] & pin.mask) != 0;
}

static bool latch(struct pin pin)
{
    return (avr->data[pin.port->r_port] & pin.mask) != 0;
}

static bool drives_high(struct pin pin)
{
    return pin.port != NULL && is_output(pin) && latch(pin);
}

/* Pulls low, as an open drain does; drives nothing high. */
static bool pulls(struct pin pin, const char *violation)
{
    static bool said;

    if (drives_high(pin) && !said) {
        said = true;
        checker_violation(now_ns, violation);
    }
    return is_output(pin) && !latch(pin);
}

/* The simulator keeps what the outside world puts on a pin in its input register. */
static void feed(struct pin pin, bool high)
{
    uint8_t *levels = &avr->data[pin.port->r_pin];

    *levels = (uint8_t)(high ? *levels | pin.mask : *levels & ~pin.mask);
}

static void bus_step(void)
{
    static bool old_master_sda;
    bool master_sda = pulls(sda, "SDA is driven high") || twi_pulls_sda();
    bool master_scl = pulls(scl, "SCL is driven high") || twi_pulls_scl();
    bool sda_high, scl_high;

    for (int round = 0; round < 2; round++) {
        sda_high = !master_sda && !sensor_pulls_sda();
        scl_high = !master_scl && !sensor_pulls_scl();
        checker_see(now_ns, sda_high, scl_high, master_sda != old_master_sda);
        sensor_see(now_ns, sda_high, scl_high);
        old_master_sda = master_sda;
    }
    checker_wait(now_ns);
    twi_step(avr, sda_high, scl_high);
    feed(sda, sda_high);
    feed(scl, scl_high);
}

static void lamp_step(void)
{
    static bool old;
    bool lit = drives_high(lamp);

    if (lit != old) {
        printf("lamp %" PRIu64 " %d\n", now_ns / 1000, lit);
    }
    old = lit;
}

static void sounder_step(bool last)
{
    static bool old;
    static uint64_t first, latest;
    static unsigned edges;
    bool high = drives_high(sounder);

    if (edges > 0 && (last || now_ns - latest > TONE_GAP_NS)) {
        printf("tone %" PRIu64 " %" PRIu64 " %u\n", first / 1000, latest / 1000, edges);
        edges = 0;
    }
    if (high != old) {
        if (edges++ == 0) {
            first = now_ns;
        }
        latest = now_ns;
    }
    old = high;
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

static bool simulate_one(void)
{
    int state = avr_run(avr);

    now_ns = (uint64_t)((double)avr->cycle * 1e9 / avr->frequency);
    missing_step(avr);
    bus_step();
    lamp_step();
    sounder_step(false);
    (void)lowest_sp();
    if (state == cpu_Done || state == cpu_Crashed) {
        printf("crashed %" PRIu64 "\n", now_ns / 1000);
        return false;
    }
    return true;
}

static bool run_until(uint64_t ns)
{
    while (now_ns < ns) {
        if (!simulate_one()) {
            return false;
        }
    }
    return true;
}

/* From the idle bus through one transaction to its STOP. */
static bool run_through_reading(unsigned number)
{
    uint64_t limit = now_ns + UINT64_C(20000000000);

    while (!checker_in_transaction() && now_ns < limit) {
        if (!simulate_one()) {
            return false;
        }
    }
    if (now_ns >= limit) {
        printf("silent %" PRIu64 "\n", now_ns / 1000);
        return false;
    }
    printf("reading %" PRIu64 " %u\n", now_ns / 1000, number);
    while (checker_in_transaction() && now_ns < limit) {
        if (!simulate_one()) {
            return false;
        }
    }
    printf("stop %" PRIu64 " %u\n", now_ns / 1000, number);
    return run_until(now_ns + PAUSE_NS);
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
    return good && run_until(now_ns + PAUSE_NS);
}

static bool play(char *line, unsigned *reading)
{
    uint8_t bytes[FRAME_MOST];

    if (strncmp(line, "frame ", 6) == 0) {
        sensor_deaf(false);
        sensor_frame(bytes, bytes_of(line + 6, bytes));
        return run_through_reading((*reading)++);
    }
    if (strncmp(line, "nack", 4) == 0) {
        sensor_deaf(true);
        return run_through_reading((*reading)++);
    }
    if (strncmp(line, "knob ", 5) == 0) {
        turn_knob((unsigned)strtoul(line + 5, NULL, 10));
        return true;
    }
    if (strncmp(line, "midbyte", 7) == 0) {
        sensor_stuck_in_byte();
        return true;
    }
    if (strncmp(line, "hold ", 5) == 0) {
        return hold(line + 5);
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
    unsigned address = 0, valid = 0, stretch = 0;

    for (int i = 0; i < count; i++) {
        char *value = strchr(options[i], '=') + 1;
        size_t name = (size_t)(value - options[i]);
#define IS(key) (strncmp(options[i], key "=", name) == 0)
        if (IS("sda")) {
            sda = pin_of(value);
        } else if (IS("scl")) {
            scl = pin_of(value);
        } else if (IS("lamp")) {
            lamp = pin_of(value);
        } else if (IS("sounder")) {
            sounder = pin_of(value);
        } else if (IS("knob")) {
            knob = atoi(value);
        } else if (IS("address")) {
            address = (unsigned)strtoul(value, NULL, 0);
        } else if (IS("valid")) {
            valid = (unsigned)strtoul(value, NULL, 0);
        } else if (IS("stretch")) {
            stretch = (unsigned)strtoul(value, NULL, 0);
        } else {
            fprintf(stderr, "not understood: %s\n", options[i]);
            exit(2);
        }
    }
    sensor_begin((uint8_t)address, valid, stretch);
}

int main(int count, char **arguments)
{
    char line[1024];
    unsigned reading = 0;
    const uint8_t *asked;
    unsigned asked_bytes;
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
        good = play(line, &reading);
    }
    sounder_step(true);
    checker_print();
    printf("stack %u\n", avr->ramend - lowest_sp());
    asked_bytes = sensor_asked(&asked);
    printf("asked");
    for (unsigned i = 0; i < asked_bytes; i++) {
        printf(" %02x", asked[i]);
    }
    printf("\nended %" PRIu64 "\n", now_ns / 1000);
    return good ? 0 : 1;
}
