#include "script.h"

#include <inttypes.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "bus_checker.h"
#include "lines.h"
#include "part.h"
#include "sensor.h"

#define NEVER UINT64_C(20000000000)
/* No reading takes so long. */
#define STUCK UINT64_C(2000000000)

static uint64_t gap;

static bool run_until(uint64_t ns)
{
    while (part_now() < ns) {
        if (!part_step(ns)) {
            return false;
        }
    }
    return true;
}

/* Until the bus has or has not a transaction, or until so late; false where the part has stopped. */
static bool run_until_bus(bool busy, uint64_t ns)
{
    while (checker_in_transaction() != busy && part_now() < ns) {
        if (!part_step(ns)) {
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
    if (sensor_waited() != 0) {
        printf("waited %" PRIu64 "\n", sensor_waited() / 1000);
    }
}

static bool run_to_reading(const char *word)
{
    if (!run_until_bus(true, part_now() + NEVER)) {
        return false;
    }
    printf("%s %" PRIu64 "\n", checker_in_transaction() ? word : "silent", part_now() / 1000);
    return checker_in_transaction();
}

/* From the idle bus through the transactions of one reading to the last STOP, and the gap after it. */
static bool run_through_reading(void)
{
    uint64_t stopped, limit;

    if (!run_to_reading("reading")) {
        return false;
    }
    limit = part_now() + STUCK;
    do {
        if (!run_until_bus(false, limit)) {
            return false;
        }
        if (checker_in_transaction() || part_now() >= limit) {
            printf("silent %" PRIu64 "\n", part_now() / 1000);
            return false;
        }
        stopped = part_now();
        if (!run_until_bus(true, stopped + gap)) {
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

static bool hold(const char *what)
{
    bool clock = strncmp(what, "clock", 5) == 0;
    bool good;

    sensor_hold(!clock, clock);
    good = run_until(part_now() + strtoull(strchr(what, ' '), NULL, 10) * 1000000u);
    sensor_hold(false, false);
    return good && run_until(part_now() + 1000000u);
}

char *script_after(const char *start, char *word)
{
    size_t length = strlen(start);

    return strncmp(word, start, length) == 0 ? word + length : NULL;
}

static bool play(char *line)
{
    uint8_t bytes[FRAME_MOST];
    char *rest;

    sensor_mood(strncmp(line, "nack", 4) == 0, strncmp(line, "refuse", 6) == 0);
    if ((rest = script_after("frame ", line)) != NULL) {
        sensor_frame(bytes, bytes_of(rest, bytes));
        return run_through_reading();
    }
    if (script_after("nack", line) != NULL || script_after("refuse", line) != NULL) {
        return run_through_reading();
    }
    if ((rest = script_after("knob ", line)) != NULL) {
        part_knob((unsigned)strtoul(rest, NULL, 10));
        return true;
    }
    if (script_after("press", line) != NULL || script_after("release", line) != NULL) {
        part_press(line[0] == 'p');
        return true;
    }
    if ((rest = script_after("wait ", line)) != NULL) {
        return run_until(part_now() + strtoull(rest, NULL, 10) * 1000000u);
    }
    if ((rest = script_after("stretch ", line)) != NULL) {
        lines_stretch(strtoull(rest, NULL, 10));
        return true;
    }
    if (script_after("midbyte", line) != NULL) {
        sensor_stuck_in_byte();
        return true;
    }
    if ((rest = script_after("hold ", line)) != NULL) {
        return hold(rest);
    }
    if ((rest = script_after("eeprom ", line)) != NULL) {
        return part_keep(bytes, bytes_of(rest, bytes));
    }
    if ((rest = script_after("cut ", line)) != NULL) {
        return part_cut((unsigned)strtoul(rest, NULL, 10));
    }
    fprintf(stderr, "not understood: %s", line);
    exit(2);
}

void script_play(const char *file, uint64_t gap_ns)
{
    char line[1024];
    bool good = true;
    FILE *script = fopen(file, "r");

    if (script == NULL) {
        perror(file);
        exit(2);
    }
    gap = gap_ns;
    while (good && fgets(line, sizeof line, script) != NULL) {
        good = play(line);
    }
    /* The state after the last reading lasts until the next. */
    if (good) {
        (void)run_to_reading("next");
    }
    fclose(script);
}
