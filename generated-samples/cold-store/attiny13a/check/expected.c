/* SPDX-License-Identifier: 0BSD */
/*
 * What the firmware should do, computed the plain way.
 *
 * cold-store guard, for ATtiny13A. Written by ullage from a loop file: to change
 * a number, change it there and emit again.
 */
#include "expected.h"

#include <float.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "world.h"

#define RUN_MOST 256

/* A knob's limit is folded to whole counts, and its steps are rounded: so far it may be off. */
#define KNOB_COUNTS 4

/* Frames in counts: sums, extremes and shares are whole numbers, exact in a double. */
static double window[LOOP_READINGS];
static int window_at;
static bool primed;
static double level;
static double smoothed;
static int block_left;
static double block_sum;

static bool judged;
static double average;

static double previous;
static int unchanged;
static int faults;

/*
 * Where the limit is known only to a few counts, more than one state is
 * possible: on or off, and readings in a row that speak against it.
 */
static bool possible[2][RUN_MOST] = {{true}};
static bool on;

double unit_of(double raw)
{
    return raw * LOOP_GAIN + LOOP_OFFSET;
}

int64_t raw_of(double unit)
{
    double raw = floor((unit - LOOP_OFFSET) / LOOP_GAIN + 0.5);

    return (int64_t)fmin(fmax(raw, LOOP_RAW_MIN), LOOP_RAW_MAX);
}

/* The average in the unit of so many counts. */
static double from_counts(double counts)
{
    switch (LOOP_REDUCE) {
    case REDUCE_MEAN:
        return unit_of(counts / LOOP_SAMPLES);
    case REDUCE_SHARE_ABOVE:
        return 100 * counts / LOOP_SAMPLES;
    default:
        return unit_of(counts);
    }
}

/* One frame in counts. The largest value is the smallest count where the scale falls. */
static double reduce(const int64_t *raw)
{
    bool largest = (LOOP_REDUCE == REDUCE_MAX) == (LOOP_GAIN > 0);
    double counts = LOOP_REDUCE == REDUCE_MAX || LOOP_REDUCE == REDUCE_MIN ? (double)raw[0] : 0;
    int i;

    for (i = 0; i < LOOP_SAMPLES; ++i) {
        double sample = (double)raw[i];

        if (LOOP_REDUCE == REDUCE_MEAN) {
            counts += sample;
        } else if (LOOP_REDUCE == REDUCE_SHARE_ABOVE) {
            counts += unit_of(sample) > LOOP_LEVEL + fabs(LOOP_LEVEL) * DBL_EPSILON * 8;
        } else if (largest ? sample > counts : sample < counts) {
            counts = sample;
        }
    }
    return counts;
}

static void into_window(double counts)
{
    int i;

    for (i = 0; !primed && i < LOOP_READINGS; ++i) {
        window[i] = counts;
    }
    window[window_at] = counts;
    window_at = (window_at + 1) % LOOP_READINGS;
    primed = true;
}

static double mean_of_window(void)
{
    double sum = 0;
    int i;

    for (i = 0; i < LOOP_READINGS; ++i) {
        sum += window[i];
    }
    return sum / LOOP_READINGS;
}

static int compare(const void *a, const void *b)
{
    double x = *(const double *)a;
    double y = *(const double *)b;

    return (x > y) - (x < y);
}

static double median_of_window(void)
{
    double sorted[LOOP_READINGS];
    int i;

    for (i = 0; i < LOOP_READINGS; ++i) {
        sorted[i] = window[i];
    }
    qsort(sorted, LOOP_READINGS, sizeof sorted[0], compare);
    return sorted[LOOP_READINGS / 2];
}

/*
 * The smoothed value moves by 1 / readings of its distance to the new one. The
 * firmware keeps it in whole counts, with what it takes away rounded: halves
 * go up where it shifts, and away from zero where it divides.
 */
static double smooth(double counts)
{
    double away;

    if (!primed) {
        level = counts * LOOP_READINGS;
        smoothed = counts;
        primed = true;
        return counts;
    }
    away = LOOP_SHIFTS || level > 0 ? floor((level + LOOP_READINGS / 2) / LOOP_READINGS)
                                    : ceil((level - LOOP_READINGS / 2) / LOOP_READINGS);
    level += counts - away;
    smoothed += (counts - smoothed) / LOOP_READINGS;
    if (fabs(level / LOOP_READINGS - smoothed) > 0.51) {
        world_fail("rounding has moved the smoothed value to %g from %g", level / LOOP_READINGS,
                   smoothed);
    }
    return level / LOOP_READINGS;
}

static double add_to_block(double counts)
{
    if (block_left == 0) {
        block_left = LOOP_READINGS;
        block_sum = 0;
    }
    block_sum += counts;
    judged = --block_left == 0;
    return block_sum / LOOP_READINGS;
}

static double over_time(double counts)
{
    judged = true;
    switch (LOOP_OVER_TIME) {
    case OVER_BLOCK:
        return add_to_block(counts);
    case OVER_MOVING:
        into_window(counts);
        return mean_of_window();
    case OVER_EXPONENTIAL:
        return smooth(counts);
    case OVER_MEDIAN:
        into_window(counts);
        return median_of_window();
    default:
        return counts;
    }
}

static double turned(void)
{
    return LOOP_KNOB_FROM + (LOOP_KNOB_TO - LOOP_KNOB_FROM) * world.knob / 1023;
}

double expect_low(void)
{
    return LOOP_KNOB ? turned() : LOOP_LOW;
}

double expect_high(void)
{
    return LOOP_KNOB ? turned() : LOOP_HIGH;
}

/*
 * Whether the average may be past a limit, or may not be, from its distance
 * beyond it. Both only near a knob's. What is equal but for the rounding of a
 * double is equal.
 */
static bool may_be_beyond(double distance, double limit, bool beyond)
{
    double equal = (fabs(average) + fabs(limit) + fabs(LOOP_OFFSET)) * DBL_EPSILON * 64;
    double count = fabs(from_counts(1) - from_counts(0)) / (LOOP_SUMS ? LOOP_READINGS : 1);
    double leeway = LOOP_KNOB ? KNOB_COUNTS * count : 0;

    return beyond ? distance > equal - leeway : distance <= equal + leeway;
}

static bool may_be_above(double limit, bool above)
{
    return may_be_beyond(average - limit, limit, above);
}

static bool may_be_below(double limit, bool below)
{
    return may_be_beyond(limit - average, limit, below);
}

/* Whether the average may be past the limits that count in this state, or may not be. */
static bool may_be_past(bool is_on, bool past)
{
    double back = is_on ? LOOP_HYSTERESIS : 0;

    switch (LOOP_WHEN) {
    case WHEN_ABOVE:
        return may_be_above(expect_high() - back, past);
    case WHEN_BELOW:
        return may_be_below(expect_low() + back, past);
    default:
        return past ? may_be_below(LOOP_LOW + back, true) || may_be_above(LOOP_HIGH - back, true)
                    : may_be_below(LOOP_LOW + back, false) && may_be_above(LOOP_HIGH - back, false);
    }
}

static bool must_stay_on(void)
{
    return LOOP_LATCH && !world.muted_when_judged;
}

/* From a state that was possible to the one that follows. */
static void advance(bool is_on, int run, bool past)
{
    if (past == is_on) {
        possible[is_on][0] = true;
    } else if (run + 1 < (is_on ? LOOP_CLEAR_AFTER : LOOP_TRIP_AFTER)) {
        possible[is_on][run + 1] = true;
    } else if (is_on && must_stay_on()) {
        possible[true][0] = true;
    } else {
        possible[past][0] = true;
    }
}

static void judge(void)
{
    bool now[2][RUN_MOST];
    int run;

    memcpy(now, possible, sizeof now);
    memset(possible, 0, sizeof possible);
    for (run = 0; run < RUN_MOST; ++run) {
        int is_on;

        for (is_on = 0; is_on < 2; ++is_on) {
            if (now[is_on][run] && may_be_past(is_on, true)) {
                advance(is_on, run, true);
            }
            if (now[is_on][run] && may_be_past(is_on, false)) {
                advance(is_on, run, false);
            }
        }
    }
}

/* True once a value has come so often that the sensor must be frozen. */
static bool is_frozen(double counts)
{
    if (LOOP_FROZEN_AFTER == 0 || counts != previous) {
        previous = counts;
        unchanged = 0;
        return false;
    }
    return ++unchanged >= LOOP_FROZEN_AFTER;
}

bool expect_frame(const int64_t *raw)
{
    double counts = reduce(raw);

    if (is_frozen(counts)) {
        expect_fault();
        return false;
    }
    faults = 0;
    average = from_counts(over_time(counts));
    if (judged) {
        judge();
    }
    return true;
}

/* Where the fault policy acts, counting starts afresh, even if the alarm has to stay on. */
static void start_afresh(bool now)
{
    memset(possible, 0, sizeof possible);
    possible[now][0] = true;
}

void expect_fault(void)
{
    judged = false;
    if (faults <= LOOP_FAULTS_ALLOWED) {
        ++faults;
    }
    if (LOOP_ON_FAULT == FAULT_HOLD || faults <= LOOP_FAULTS_ALLOWED) {
        return;
    }
    if (LOOP_ON_FAULT == FAULT_ALARM && !on) {
        start_afresh(true);
    } else if (LOOP_ON_FAULT == FAULT_QUIET && on) {
        start_afresh(must_stay_on());
    }
}

bool expect_alarm(bool alarm)
{
    bool may_be = false;
    int run;

    for (run = 0; run < RUN_MOST; ++run) {
        possible[!alarm][run] = false;
        may_be = may_be || possible[alarm][run];
    }
    on = alarm;
    return may_be;
}

bool expect_is_judged(void)
{
    return judged;
}

double expect_average(void)
{
    return average;
}
