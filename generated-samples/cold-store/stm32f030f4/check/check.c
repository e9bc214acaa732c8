/* SPDX-License-Identifier: 0BSD */
/*
 * Plays made-up readings and compares what the firmware does with what it should do.
 *
 * cold-store guard, for STM32F030F4. Written by ullage from a loop file: to change
 * a number, change it there and emit again.
 */
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "expected.h"
#include "world.h"

#define READINGS 3000

/* What the readings are like for a while. */
enum mood { NEAR_LIMIT, AROUND_LIMIT, ANYWHERE, LOWEST, HIGHEST, STILL, FAILING, MOODS };

static long reading;
static enum mood mood;
static int64_t mood_left;
static int64_t alarms;
static bool alarm_was;

static void wrong(const char *what)
{
    world_fail("%s at reading %ld (average %.9g, alarm %d)", what, reading, expect_average(),
               alarm_was);
}

/* A count near a value in the unit, but one that the sensor can send. */
static int64_t near(double unit, int64_t counts)
{
    double raw = (double)(raw_of(unit) + world_random(-counts, counts));

    return (int64_t)fmin(fmax(raw, LOOP_RAW_MIN), LOOP_RAW_MAX);
}

/* Samples of which about the share that trips the alarm is above the level. */
static int64_t around_level(void)
{
    bool above = (double)world_random(0, 999) / 10 < expect_high();
    int64_t steps = world_random(0, 2);

    return near(LOOP_LEVEL + (above ? 1 : -1) * (double)steps * fabs(LOOP_GAIN), 1);
}

static int64_t near_limit(int64_t counts)
{
    if (LOOP_REDUCE == REDUCE_SHARE_ABOVE) {
        return around_level();
    }
    return near(mood_left % 2 == 0 ? expect_low() : expect_high(), counts);
}

static int64_t sample(void)
{
    int64_t far = (int64_t)fmin(2 * LOOP_HYSTERESIS / fabs(LOOP_GAIN), LOOP_RAW_MAX);

    switch (mood) {
    case NEAR_LIMIT:
        return near_limit(2);
    case AROUND_LIMIT:
        return near_limit(3 + far);
    case LOWEST:
        return (int64_t)LOOP_RAW_MIN;
    case HIGHEST:
        return (int64_t)LOOP_RAW_MAX;
    default:
        return world_random((int64_t)LOOP_RAW_MIN, (int64_t)LOOP_RAW_MAX);
    }
}

static void change_mood(void)
{
    mood = (enum mood)world_random(0, MOODS - 1);
    mood_left = world_random(1, mood == FAILING ? LOOP_FAULTS_ALLOWED + 4 : 40);
    world.pressed = LOOP_MUTE && world_random(0, 3) == 0;
    if (world_random(0, 3) == 0) {
        static const unsigned ends[] = {0, 1, 512, 1022, 1023};

        world.knob = world_random(0, 1) == 0 ? ends[world_random(0, 4)]
                                             : (unsigned)world_random(0, 1023);
    }
}

bool next_reading(void)
{
    int i;

    if (mood_left-- == 0) {
        change_mood();
    }
    world.absent = false;
    world.spoiled = false;
    if (mood == FAILING || world_random(0, 99) == 0) {
        world.spoiled = LOOP_CHECK != CHECK_NONE && world_random(0, 1) == 0;
        world.absent = !world.spoiled;
    }
    for (i = 0; mood != STILL && i < LOOP_SAMPLES; ++i) {
        world.raw[i] = sample();
    }
    return ++reading <= READINGS;
}

static void check_outputs(bool alarm)
{
    bool beeps = LOOP_SOUNDER_OFF_MS > 0;

    if (LOOP_RELAY && world.relay != alarm) {
        wrong("the relay is not as the alarm is");
    }
    if (LOOP_LAMP && (LOOP_LAMP_BLINK_MS == 0 || !alarm) && world.lamp != alarm) {
        wrong("the lamp is not as the alarm is");
    }
    if (world.sounder && (!alarm || world.muted)) {
        wrong("the sounder sounds");
    }
    if (LOOP_SOUNDER && alarm && !beeps && !world.muted && !world.sounder) {
        wrong("the sounder is silent");
    }
}

/*
 * A number in the report: equal to a value, but for the rounding of its last
 * digit and one more for the rounding of what it was multiplied with. Without
 * a point that may be a part in 256.
 */
static const char *check_number(const char *text, double value)
{
    char *end;
    double printed = strtod(text, &end);
    const char *point = memchr(text, '.', (size_t)(end - text));
    double step = pow(10, point == NULL ? 0 : -(double)(end - point - 1));
    double rough = point == NULL ? (fabs(value) + fabs(LOOP_OFFSET)) / 256 : 0;

    if (end == text || fabs(printed - value) > 1.6 * step + rough) {
        world_fail("reported `%s` for %.9g", text, value);
    }
    return end;
}

static void check_report(bool good, bool alarm)
{
    const char *rest = world.line;
    int i;

    if (LOOP_REPORT == REPORT_NONE) {
        return;
    }
    if (!good) {
        rest += rest[0] == '-';
    } else if (LOOP_REPORT == REPORT_FRAME) {
        for (i = 0; i < LOOP_SAMPLES; ++i) {
            rest = check_number(rest, unit_of((double)world.raw[i]));
            rest += i + 1 < LOOP_SAMPLES && rest[0] == ',';
        }
    } else if (expect_is_judged()) {
        rest = check_number(rest, expect_average());
        rest += strncmp(rest, alarm ? ",1" : ",0", 2) == 0 ? 2 : 0;
    } else {
        rest = "\r\n";
    }
    if (strcmp(rest, "\r\n") != 0) {
        wrong("a report line does not end as it should");
    }
}

void reading_done(bool alarm)
{
    bool good = !world.absent && !world.spoiled;

    if (good) {
        good = expect_frame(world.raw);
    } else {
        expect_fault();
    }
    alarms += alarm && !alarm_was;
    alarm_was = alarm;
    if (!expect_alarm(alarm)) {
        wrong(alarm ? "the alarm is on" : "the alarm is off");
    }
    check_outputs(alarm);
    check_report(good, alarm);
}

int main(int count, char **arguments)
{
    unsigned long seeds = count > 1 ? strtoul(arguments[1], NULL, 10) : 1;

    world_seed(seeds);
    world_run();
    printf("%d readings, %ld alarms, all as expected\n", READINGS, (long)alarms);
    return 0;
}
