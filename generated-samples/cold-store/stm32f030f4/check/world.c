/* SPDX-License-Identifier: 0BSD */
/*
 * The port and the passing of time, for the firmware to run in.
 *
 * cold-store guard, for STM32F030F4. Written by ullage from a loop file: to change
 * a number, change it there and emit again.
 */
#include "world.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>

#include "../src/alarm.h"
#if LOOP_STEPS
#include "../src/outputs.h"
#endif
#if LOOP_SETTINGS
#include "../src/settings.h"
#endif

/* Ticks between two readings, but few enough that a long period is over soon. */
#define TICKS_MOST 120

struct world world;

static jmp_buf end;
static unsigned long seed = 1;
static bool stepping;
static unsigned long lamp_since;
static unsigned long sounder_since;

void world_fail(const char *format, ...)
{
    va_list values;

    va_start(values, format);
    fputs("check failed: ", stderr);
    vfprintf(stderr, format, values);
    fputc('\n', stderr);
    va_end(values);
    exit(1);
}

void world_seed(unsigned long start)
{
    seed = start * 2654435761ul + 1;
}

/* A linear congruential generator; its high bits are the good ones. */
static unsigned long random_bits(void)
{
    seed = (seed * 1664525ul + 1013904223ul) & 0xFFFFFFFFul;
    return seed >> 8;
}

int64_t world_random(int64_t low, int64_t high)
{
    uint64_t bits = random_bits();

    bits = bits << 24 | random_bits();
    return low + (int64_t)(bits % (uint64_t)(high - low + 1));
}

void world_run(void)
{
    if (setjmp(end) == 0) {
        if (next_reading()) {
            (void)firmware_main();
        }
    }
}

static void is_not_overdue(const char *what, unsigned long since, double ms)
{
    double took = (double)(world.ticks - since) * LOOP_TICK_MS;

    if (took > ms * 1.02 + LOOP_TICK_MS * 1.5) {
        world_fail("the %s has not changed for %g ms instead of %g ms", what, took, ms);
    }
}

/* An alarm that has changed is not muted any more. */
static void follow_alarm(void)
{
    static bool before;

    if (alarm_on != before) {
        world.muted = false;
        before = alarm_on;
    }
}

void world_tick(void)
{
    ++world.ticks;
    follow_alarm();
    if (world.pressed && alarm_on) {
        world.muted = true;
    }
    /* What is pressed while a line is reported comes after the judgement. */
    if (world.line_length == 0) {
        world.muted_when_judged = world.muted;
    }
#if LOOP_STEPS
    stepping = true;
    outputs_step();
    stepping = false;
#endif
    if (alarm_on && LOOP_LAMP_BLINK_MS > 0) {
        is_not_overdue("lamp", lamp_since, LOOP_LAMP_BLINK_MS);
    }
    if (alarm_on && LOOP_SOUNDER_OFF_MS > 0 && !world.muted) {
        is_not_overdue("sounder", sounder_since,
                       world.sounder ? LOOP_SOUNDER_ON_MS : LOOP_SOUNDER_OFF_MS);
    }
}

/* From one change to the next as long as the loop file says, to half a tick. */
static void is_on_time(const char *what, unsigned long since, double ms)
{
    double took = (double)(world.ticks - since) * LOOP_TICK_MS;
    double off = took > ms ? took - ms : ms - took;

    if (took > LOOP_TICK_MS * 1.5 && off > LOOP_TICK_MS / 2 + ms * 0.02) {
        world_fail("the %s changed after %g ms instead of %g ms", what, took, ms);
    }
}

/* The port. */

void port_begin(void)
{
}

void port_lamp(bool on)
{
    if (on != world.lamp || !stepping) {
        lamp_since = world.ticks;
    }
    world.lamp = on;
}

void port_lamp_toggle(void)
{
    is_on_time("lamp", lamp_since, LOOP_LAMP_BLINK_MS);
    port_lamp(!world.lamp);
}

void port_relay(bool on)
{
    world.relay = on;
}

void port_sounder(bool on)
{
    if (on && world.muted) {
        world_fail("the sounder sounds although it was muted");
    }
    if (stepping && on != world.sounder && !world.pressed) {
        is_on_time("sounder", sounder_since, on ? LOOP_SOUNDER_OFF_MS : LOOP_SOUNDER_ON_MS);
    }
    if (on != world.sounder || !stepping) {
        sounder_since = world.ticks;
    }
    world.sounder = on;
}

bool port_mute_pressed(void)
{
    return world.pressed;
}

uint16_t port_knob(void)
{
    return (uint16_t)world.knob;
}

void port_serial_begin(void)
{
}

void port_serial_send(uint8_t character)
{
    if (world.line_length + 1 >= WORLD_LINE) {
        world_fail("a report line is longer than %d characters", WORLD_LINE);
    }
    world.line[world.line_length++] = (char)character;
    world.line[world.line_length] = '\0';
}

void fake_reading_done(bool alarm)
{
    follow_alarm();
    reading_done(alarm);
}

/* Time: what port/pace.c does with a timer. */

static unsigned long reading_began;

void pace_begin(void);
void pace_tick(void);
void pace_poll(void);
void pace_rest(void);

void pace_begin(void)
{
}

void pace_tick(void)
{
    world_tick();
}

void pace_poll(void)
{
    static unsigned calls;

    if (++calls % 16 == 0) {
        world_tick();
    }
}

void pace_rest(void)
{
    unsigned long ticks = (unsigned long)(LOOP_PERIOD_MS / LOOP_TICK_MS + 0.5);

    if (ticks > TICKS_MOST) {
        ticks = TICKS_MOST;
    }
    while (world.ticks - reading_began < ticks) {
        world_tick();
    }
    reading_began = world.ticks;
    world.line_length = 0;
    world.line[0] = '\0';
    world.muted_when_judged = world.muted;
    if (!next_reading()) {
        longjmp(end, 1);
    }
}
#if LOOP_SETTINGS

sum_t settings_trip;

void settings_load(void)
{
    settings_trip = ALARM_TRIP;
}

void settings_keep(sum_t trip)
{
    settings_trip = trip;
}
#endif
