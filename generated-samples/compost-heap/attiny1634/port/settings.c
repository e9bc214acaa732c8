/* SPDX-License-Identifier: 0BSD */
/*
 * Keeps the threshold in EEPROM, with a check byte.
 *
 * compost-heap watering, for ATtiny1634. Written by ullage from a loop file: to change
 * a number, change it there and emit again.
 */
#include "../src/settings.h"

#include <avr/interrupt.h>
#include <avr/io.h>

#define SETTINGS_AT 0
#define SETTINGS_SEED 0xA5

sum_t settings_trip;

static uint8_t eeprom_read(uint8_t address)
{
    /* A write that is under way ends within milliseconds. */
    while ((EECR & (1 << EEPE)) != 0) {
    }
    EEAR = address;
    EECR |= (1 << EERE);
    return EEDR;
}

void settings_load(void)
{
    uint8_t check = SETTINGS_SEED;
    uint8_t at = SETTINGS_AT + 4;
    uint32_t kept = 0;

    do {
        uint8_t byte = eeprom_read(--at);

        check ^= byte;
        kept = (uint32_t)((uint32_t)(kept << 8) | byte);
    } while (at != SETTINGS_AT);
    if (check != eeprom_read(SETTINGS_AT + 4)) {
        kept = (uint32_t)fixed_sum(ALARM_TRIP);
    }
    settings_trip = (sum_t)kept;
}

static void eeprom_write(uint8_t address, uint8_t byte)
{
    uint8_t status = SREG;

    while ((EECR & (1 << EEPE)) != 0) {
    }
    EEAR = address;
    EEDR = byte;
    /* The second bit must follow the first within four clocks. */
    cli();
    EECR |= (1 << EEMPE);
    EECR |= (1 << EEPE);
    SREG = status;
}

void settings_keep(sum_t trip)
{
    uint32_t rest = (uint32_t)trip;
    uint8_t check = SETTINGS_SEED;
    uint8_t at = SETTINGS_AT;

    settings_trip = trip;
    do {
        uint8_t byte = (uint8_t)rest;

        eeprom_write(at, byte);
        check ^= byte;
        rest >>= 8;
    } while (++at != SETTINGS_AT + 4);
    eeprom_write(at, check);
}
