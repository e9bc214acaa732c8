<#include "/portable/head.ftl">
<@head about="Keeps the threshold in EEPROM, with a check byte."/>
#include "../src/settings.h"

#include <avr/interrupt.h>
#include <avr/io.h>

<#assign e = family.keeping.get().registers bytes = (t.sum?ends_with("32"))?then(4, 2)>
#define SETTINGS_AT 0
#define SETTINGS_SEED 0xA5

sum_t settings_trip;

static uint8_t eeprom_read(uint8_t address)
{
    /* A write that is under way ends within milliseconds. */
    while ((${e.control} & (1 << ${e.write})) != 0) {
    }
    ${e.address} = address;
    ${e.control} |= (1 << ${e.read});
    return ${e.data};
}

void settings_load(void)
{
    uint8_t check = SETTINGS_SEED;
    uint8_t at = SETTINGS_AT + ${bytes};
    <@unsigned/> kept = 0;

    do {
        uint8_t byte = eeprom_read(--at);

        check ^= byte;
        kept = (<@unsigned/>)((<@unsigned/>)(kept << 8) | byte);
    } while (at != SETTINGS_AT);
    if (check != eeprom_read(SETTINGS_AT + ${bytes})) {
        kept = (<@unsigned/>)fixed_sum(ALARM_TRIP);
    }
    settings_trip = (sum_t)kept;
}

static void eeprom_write(uint8_t address, uint8_t byte)
{
    uint8_t status = SREG;

    while ((${e.control} & (1 << ${e.write})) != 0) {
    }
    ${e.address} = address;
    ${e.data} = byte;
    /* The second bit must follow the first within four clocks. */
    cli();
    ${e.control} |= (1 << ${e.master_write});
    ${e.control} |= (1 << ${e.write});
    SREG = status;
}

void settings_keep(sum_t trip)
{
    <@unsigned/> rest = (<@unsigned/>)trip;
    uint8_t check = SETTINGS_SEED;
    uint8_t at = SETTINGS_AT;

    settings_trip = trip;
    do {
        uint8_t byte = (uint8_t)rest;

        eeprom_write(at, byte);
        check ^= byte;
        rest >>= 8;
    } while (++at != SETTINGS_AT + ${bytes});
    eeprom_write(at, check);
}
<#macro unsigned>uint${8 * bytes}_t</#macro>
