/* SPDX-License-Identifier: 0BSD */
/*
 * Plays a recorded trace through the firmware and prints when the alarm changes.
 *
 * cold-store guard, for CH32V003F4P6. Written by ullage from a loop file: to change
 * a number, change it there and emit again.
 */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "expected.h"
#include "world.h"

/*
 * play TRACE [LIMIT]
 *
 * A line of the trace is one reading: a value in the unit for each sample, with
 * commas between them, or one for all; `-` is a reading that failed. Lines that
 * start with a letter or # are left out. LIMIT is what the knob is set to.
 */

#define LINE_MOST 4096

static FILE *trace;
static long line_number;
static long reading;
static bool alarm_was;

/* The next line that is a reading; false at the end. */
static bool next_line(char line[LINE_MOST])
{
    while (fgets(line, LINE_MOST, trace) != NULL) {
        ++line_number;
        if (strchr("-+.0123456789", line[0]) != NULL && line[0] != '\0') {
            return true;
        }
    }
    return false;
}

static void read_samples(const char *line)
{
    double value = 0;
    int i;

    for (i = 0; i < LOOP_SAMPLES; ++i) {
        char *end;

        if (*line != '\0' && *line != '\n' && *line != '\r') {
            value = strtod(line, &end);
            if (end == line) {
                world_fail("line %ld: no number at `%s`", line_number, line);
            }
            line = end + (*end == ',');
        } else if (i > 1) {
            world_fail("line %ld: %d samples instead of %d", line_number, i, LOOP_SAMPLES);
        }
        world.raw[i] = raw_of(value);
    }
}

bool next_reading(void)
{
    static char line[LINE_MOST];

    if (!next_line(line)) {
        return false;
    }
    ++reading;
    world.absent = strcspn(line, "\r\n") == 1 && line[0] == '-';
    if (!world.absent) {
        read_samples(line);
    }
    return true;
}

void reading_done(bool alarm)
{
    if (alarm != alarm_was) {
        printf("%ld,%.0f,%d\n", reading, (double)(reading - 1) * LOOP_PERIOD_MS, alarm);
    }
    alarm_was = alarm;
}

static void turn_knob(double limit)
{
    double turn = (limit - LOOP_KNOB_FROM) / (LOOP_KNOB_TO - LOOP_KNOB_FROM);

    if (!LOOP_KNOB || turn < 0 || turn > 1) {
        world_fail("the knob cannot be set to %g", limit);
    }
    world.knob = (unsigned)(turn * 1023 + 0.5);
}

int main(int count, char **arguments)
{
    trace = count > 1 && strcmp(arguments[1], "-") != 0 ? fopen(arguments[1], "r") : stdin;
    if (trace == NULL) {
        world_fail("cannot read `%s`", arguments[1]);
    }
    if (count > 2) {
        turn_knob(strtod(arguments[2], NULL));
    }
    puts("reading,time_ms,alarm");
    world_run();
    return 0;
}
