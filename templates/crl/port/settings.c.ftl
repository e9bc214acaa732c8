<#include "/portable/head.ftl">
<@head about="Keeps the threshold in the last page of the flash, with a check byte."/>
#include "../src/settings.h"

#include "registers.h"

<#assign bytes = (t.sum?ends_with("32"))?then(4, 2) k = family.keeping.get().registers>
#define SETTINGS_SEED 0xA5u

/* Half words: the threshold, the lowest first, then the check byte. */
extern const volatile uint16_t settings_page[${k.page_bytes?number / 2}];
__attribute__((section(".settings"))) const volatile uint16_t settings_page[${k.page_bytes?number / 2}] = {0};

sum_t settings_trip;

static uint16_t check_of(uint32_t kept)
{
    return (uint16_t)((SETTINGS_SEED ^ kept ^ (kept >> 8) ^ (kept >> 16) ^ (kept >> 24)) & 0xFFu);
}

void settings_load(void)
{
    uint32_t kept = settings_page[0];
<#if bytes == 4>

    kept |= (uint32_t)settings_page[1] << 16;
</#if>
    if (settings_page[2] != check_of(kept)) {
        kept = (uint32_t)fixed_sum(ALARM_TRIP);
    }
    settings_trip = (sum_t)kept;
}

/* Waits for the flash: an erasure takes some milliseconds, and always ends. */
static void flash_wait(void)
{
    while ((FLASH_STATUS & FLASH_BUSY) != 0) {
    }
}

static void flash_write(const volatile uint16_t *to, uint32_t half)
{
    *(volatile uint16_t *)to = (uint16_t)half;
    flash_wait();
}

void settings_keep(sum_t trip)
{
    uint32_t kept = (uint${8 * bytes}_t)trip;

    settings_trip = trip;
    FLASH_KEY = 0x45670123u;
    FLASH_KEY = 0xCDEF89ABu;
    FLASH_CONTROL = FLASH_ERASES;
    FLASH_ADDRESS = (uint32_t)settings_page;
    FLASH_CONTROL = FLASH_ERASES | FLASH_STARTS;
    flash_wait();
    FLASH_CONTROL = FLASH_PROGRAMS;
    flash_write(&settings_page[0], kept & 0xFFFFu);
    flash_write(&settings_page[1], kept >> 16);
    flash_write(&settings_page[2], check_of(kept));
    FLASH_CONTROL = FLASH_LOCKS;
}
