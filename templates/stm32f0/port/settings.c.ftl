<#include "/portable/head.ftl">
<@head about="Keeps the threshold in the last page of the flash, with a check byte."/>
#include "../src/settings.h"

#include "registers.h"

<#assign bytes = (t.sum?ends_with("32"))?then(4, 2) halves = (bytes == 4)?then(2, 1)>
#define SETTINGS_SEED 0xA5u

sum_t settings_trip;

/* The page is the program's. Half-words of the value, the lower one first; then the check byte. */
__attribute__((section(".settings"))) static const volatile uint16_t settings_page[${family.keeping.get().registers.page_bytes?number / 2}];

static uint8_t check_of(<@unsigned/> value)
{
    uint32_t check = SETTINGS_SEED ^ value ^ (value >> 8)<#if bytes == 4> ^ (value >> 16) ^ (value >> 24)</#if>;

    return (uint8_t)check;
}

void settings_load(void)
{
    <@unsigned/> kept = settings_page[0]<#if bytes == 4> | (uint32_t)settings_page[1] << 16</#if>;

    if (check_of(kept) != settings_page[${halves}]) {
        kept = (<@unsigned/>)fixed_sum(ALARM_TRIP);
    }
    settings_trip = (sum_t)kept;
}

/* The core stands still while the flash works, some 40 ms for a page, so this wait is a short one. */
static void finish(void)
{
    while ((FLASH_SR & FLASH_SR_BSY) != 0) {
    }
}

static void write(uint8_t place, uint32_t half)
{
    ((volatile uint16_t *)settings_page)[place] = (uint16_t)half;
    finish();
}

void settings_keep(sum_t trip)
{
    <@unsigned/> value = (<@unsigned/>)trip;

    settings_trip = trip;
    FLASH_KEYR = 0x45670123u;
    FLASH_KEYR = 0xCDEF89ABu;
    FLASH_CR = FLASH_CR_PER;
    FLASH_AR = (uint32_t)settings_page;
    FLASH_CR = FLASH_CR_PER | FLASH_CR_STRT;
    finish();
    FLASH_CR = FLASH_CR_PG;
    write(0, value);
<#if bytes == 4>
    write(1, value >> 16);
</#if>
    write(${halves}, check_of(value));
    FLASH_CR = FLASH_CR_LOCK;
}
<#macro unsigned>uint${8 * bytes}_t</#macro>
