<#include "/portable/head.ftl">
<@head about="Keeps the threshold in the last two sectors of the flash, each with a check byte."/>
#include "../src/settings.h"

#include "registers.h"

<#assign bytes = (t.sum?ends_with("32"))?then(4, 2)>
#define SETTINGS_SEED 0xA5u
#define SETTINGS_SECTOR ${family.keeping.get().registers.sector_bytes}u

sum_t settings_trip;

/*
 * In each sector the value, then the check byte, or nothing. A new value goes to the sector that the
 * old one is not in, and only then is the old one erased: if the power fails, one of them is left.
 * The linker puts both where the chip is read past the cache, which does not know of changes.
 */
__attribute__((section(".settings"))) static const volatile uint32_t settings_page[2][SETTINGS_SECTOR / 4u];

static uint8_t check_of(uint32_t value)
{
    return (uint8_t)(SETTINGS_SEED ^ value ^ (value >> 8)<#if bytes == 4> ^ (value >> 16) ^ (value >> 24)</#if>);
}

static bool is_kept_in(uint32_t sector)
{
    return check_of(settings_page[sector][0]) == settings_page[sector][1];
}

void settings_load(void)
{
    uint32_t sector = is_kept_in(0) ? 0 : 1;

    settings_trip = is_kept_in(sector) ? (sum_t)settings_page[sector][0] : fixed_sum(ALARM_TRIP);
}

/* While the chip gets commands nothing can be read from it. RAM is too far away for a plain call. */
#define IN_RAM(name) __attribute__((section(".ramcode." name), noinline, long_call))

/* Selects the chip, sends all frames, and gives what came back with the first of them. */
IN_RAM("command") static uint32_t command(uint32_t frame_bits, const uint32_t *frames, uint32_t count)
{
    SSI_SSIENR = 0;
    SSI_CTRLR0 = (frame_bits - 1u) << SSI_CTRLR0_DFS_32_PLACE;
    SSI_SSIENR = 1;
    do {
        SSI_DR0 = *frames++;
    } while (--count != 0);
    while ((SSI_SR & (SSI_SR_TFE | SSI_SR_BUSY)) != SSI_SR_TFE) {
    }
    return SSI_DR0;
}

/* An erasure takes 0.4 s at most, and always ends. */
IN_RAM("change") static void change(const uint32_t *frames, uint32_t count)
{
    uint32_t frame = FLASH_WRITE_ENABLE;

    (void)command(8, &frame, 1);
    (void)command(32, frames, count);
    frame = FLASH_READ_STATUS << 8;
    while ((command(16, &frame, 1) & FLASH_STATUS_BUSY) != 0) {
    }
    /* As the boot stage has left it. */
    SSI_SSIENR = 0;
    SSI_CTRLR0 = SSI_CTRLR0_READS;
    SSI_SSIENR = 1;
}

/* The highest byte of a frame goes first, and the lowest one of a word in memory. */
static void write(uint32_t sector, uint32_t value, uint32_t check)
{
    uint32_t place = (uint32_t)settings_page[sector] & 0x00FFFFFFu;
    uint32_t frames[3];

    frames[0] = FLASH_ERASE_SECTOR << 24 | place;
    change(frames, 1);
    frames[0] = FLASH_PROGRAM << 24 | place;
    frames[1] = __builtin_bswap32(value);
    frames[2] = __builtin_bswap32(check);
    change(frames, 3);
}

/* Handlers lie in the flash, so none may run. */
void settings_keep(sum_t trip)
{
    uint32_t value = (uint${8 * bytes}_t)trip;
    uint32_t sector = is_kept_in(0) ? 1 : 0;
    uint32_t masked;

    settings_trip = trip;
    /* Its longest time, 8 s: the part cannot start while the chip is busy. */
    WATCHDOG_LOAD = WATCHDOG_LOAD_MOST;
    __asm__ volatile("mrs %0, primask\n\tcpsid i" : "=r"(masked) : : "memory");
    write(sector, value, check_of(value));
    /* With ones, which change nothing. */
    write(1u - sector, 0xFFFFFFFFu, 0xFFFFFFFFu);
    __asm__ volatile("msr primask, %0" : : "r"(masked) : "memory");
}
