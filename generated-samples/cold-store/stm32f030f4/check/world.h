/* SPDX-License-Identifier: 0BSD */
/*
 * The world around the firmware: sensor, knob, button, and what it drives.
 *
 * cold-store guard, for STM32F030F4. Written by ullage from a loop file: to change
 * a number, change it there and emit again.
 */
#ifndef WORLD_H
#define WORLD_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#include "loop.h"

/* What a line of the report may be long: every sample with its sign, point and comma. */
#define WORLD_LINE (LOOP_SAMPLES * 13 + 8)

struct world {
    /* Set before a reading. */
    int64_t raw[LOOP_SAMPLES]; /* what the sensor measures, in counts */
    bool absent;               /* the sensor does not answer */
    bool spoiled;              /* a bit turns over on the way */
    unsigned knob;             /* 0 to 1023 */
    bool pressed;              /* somebody holds the mute button */

    /* Seen from outside. */
    bool lamp;
    bool sounder;
    bool relay;
    bool muted;                /* the button was pressed since the alarm went on */
    bool muted_when_judged;    /* the same when the last average was judged */
    char line[WORLD_LINE];     /* what was reported since the reading began */
    size_t line_length;
    unsigned long ticks;
};

extern struct world world;

/* Runs the firmware until next_reading() says that there is none. */
void world_run(void);

/* Ends the program with a message and exit code 1. */
void world_fail(const char *format, ...);

/* A pseudo-random number from low to high; the same sequence for the same seed. */
int64_t world_random(int64_t low, int64_t high);
void world_seed(unsigned long seed);

/* Lets a tick pass. */
void world_tick(void);

/* From the program that runs the world: sets up the next reading; judges the last one. */
bool next_reading(void);
void reading_done(bool alarm);

#endif
