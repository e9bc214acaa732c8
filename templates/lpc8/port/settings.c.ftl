<#include "/portable/head.ftl">
<@head about="Keeps the threshold in the last page of the flash, with a check byte."/>
#include "../src/settings.h"

#include "registers.h"

<#assign bytes = (t.sum?ends_with("32"))?then(4, 2)>
<#assign page = family.keeping.get().registers.page_bytes?number>
#define SETTINGS_SEED 0xA5u
#define SETTINGS_PAGE ${page?c}u
#define SETTINGS_SECTOR 1024u

/* Commands of the routine in ROM, and what it does them with. */
#define ROM_PREPARE 50u
#define ROM_WRITE 51u
#define ROM_ERASE_PAGE 59u

sum_t settings_trip;

/* The value, then the check byte; the rest of the page is empty. */
__attribute__((section(".settings"))) static const volatile uint32_t settings_page[SETTINGS_PAGE / 4u];

/* The last 32 bytes of RAM are the routine's while it works; the stack begins below. */
__attribute__((section(".bss.top"))) static uint32_t settings_rom[8];

static uint8_t check_of(uint32_t value)
{
    return (uint8_t)(SETTINGS_SEED ^ value ^ (value >> 8)<#if bytes == 4> ^ (value >> 16) ^ (value >> 24)</#if>);
}

void settings_load(void)
{
    uint32_t kept = settings_page[0];

    if (check_of(kept) != settings_page[1]) {
        kept = (uint32_t)fixed_sum(ALARM_TRIP);
    }
    settings_trip = (sum_t)kept;
}

/*
 * Leads to the routine in ROM as a return would, which then returns to the caller. Its 148 bytes of stack
 * (UM10601 22.6.2, UM10800 25.7.2) are opened and closed here, where a search for the deepest stack sees them.
 */
__attribute__((naked, noinline)) static void rom(uint32_t *command __attribute__((unused)),
                                                 uint32_t *result __attribute__((unused)))
{
    __asm__ volatile(
        ".syntax unified\n\t"
        "sub sp, #148\n\t"
        "add sp, #148\n\t"
        "push {lr}\n\t"
        "ldr r2, =" ROM_ENTRY "\n\t"
        "mrs r3, msp\n\t"
        "str r2, [r3]\n\t"
        "pop {pc}\n\t"
        ".pool");
}

/* Each change of the flash needs its sector made ready before. */
static void change(uint32_t *command)
{
    uint32_t sector = (uint32_t)settings_page / SETTINGS_SECTOR;
    uint32_t ready[4] = {ROM_PREPARE, sector, sector, 0};

    rom(ready, ready);
    rom(command, command);
}

/* The flash cannot be read meanwhile, for some 0.1 s, so no handler may run. */
void settings_keep(sum_t trip)
{
    volatile uint32_t words[SETTINGS_PAGE / 4u];
    uint32_t page = (uint32_t)settings_page / SETTINGS_PAGE;
    uint32_t value = (uint${8 * bytes}_t)trip;
    uint32_t erase[5] = {ROM_ERASE_PAGE, page, page, fixed_u32(CLOCK_KHZ), 0};
    uint32_t write[5] = {ROM_WRITE, (uint32_t)settings_page, (uint32_t)words, SETTINGS_PAGE, fixed_u32(CLOCK_KHZ)};
    uint32_t masked;
    uint8_t place = fixed_u8(SETTINGS_PAGE / 4u);

    settings_trip = trip;
    do {
        words[--place] = 0xFFFFFFFFu;
    } while (place != 0);
    words[0] = value;
    words[1] = check_of(value);
    __asm__ volatile("mrs %0, primask\n\tcpsid i" : "=r"(masked) : "r"(settings_rom) : "memory");
    change(erase);
    change(write);
    __asm__ volatile("msr primask, %0" : : "r"(masked) : "memory");
}
