<#include "/portable/head.ftl">
<@head about="Keeps the threshold in EEPROM, with a check byte."/>
#include "../src/settings.h"

#include "registers.h"

<#assign bytes = (t.sum?ends_with("32"))?then(4, 2)>
#define SETTINGS_SEED 0xA5u

/* The first bytes of the data EEPROM, which can be written one by one. */
#define SETTINGS_BYTE(place) (((volatile uint8_t *)0x08080000u)[place])

sum_t settings_trip;

void settings_load(void)
{
    uint8_t check = SETTINGS_SEED;
    uint8_t at = fixed_u8(${bytes});
    <@unsigned/> kept = 0;

    do {
        uint8_t byte = SETTINGS_BYTE(--at);

        check ^= byte;
        kept = (<@unsigned/>)((<@unsigned/>)(kept << 8) | byte);
    } while (at != 0);
    if (check != SETTINGS_BYTE(${bytes})) {
        kept = (<@unsigned/>)fixed_sum(ALARM_TRIP);
    }
    settings_trip = (sum_t)kept;
}

static void write(uint8_t at, uint8_t byte)
{
    SETTINGS_BYTE(at) = byte;
    /* Ends within 7 ms: data sheets, "Flash memory and data EEPROM characteristics". */
    while ((FLASH_SR & FLASH_SR_BSY) != 0) {
    }
}

void settings_keep(sum_t trip)
{
    <@unsigned/> rest = (<@unsigned/>)trip;
    uint8_t check = SETTINGS_SEED;
    uint8_t at = 0;

    settings_trip = trip;
    FLASH_PEKEYR = 0x89ABCDEFu;
    FLASH_PEKEYR = 0x02030405u;
    do {
        uint8_t byte = (uint8_t)rest;

        write(at, byte);
        check ^= byte;
        rest >>= 8;
    } while (++at != ${bytes});
    write(at, check);
    FLASH_PECR = FLASH_PECR_PELOCK;
}
<#macro unsigned>uint${8 * bytes}_t</#macro>
