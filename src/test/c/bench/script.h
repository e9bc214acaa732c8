/*
 * Plays a script, a line for each reading or event between two readings:
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
 *   eeprom 20 03 86  what the EEPROM or its place in flash holds, from its first byte on
 *   cut 2            the power fails in the second change of the flash from now on
 *
 * Standard output says what was seen, a line for each event, in microseconds; it judges nothing but
 * the rules of the bus.
 */
#ifndef SCRIPT_H
#define SCRIPT_H

#include <stdint.h>

/* `gap_ns`: so long without traffic ends a reading. */
void script_play(const char *file, uint64_t gap_ns);

/* What a word starts with, or null. */
char *script_after(const char *start, char *word);

#endif
