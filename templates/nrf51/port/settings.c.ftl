<#include "/portable/head.ftl">
<@head about="Keeps the threshold in the last page of the flash, with a check byte."/>
#include "../src/settings.h"

#include "registers.h"

<#assign bytes = (t.sum?ends_with("32"))?then(4, 2)>
#define SETTINGS_SEED 0xA5u

sum_t settings_trip;

/* Two words: the value, then the check byte. */
__attribute__((section(".settings"))) static const volatile uint32_t settings_page[${family.keeping.get().registers.page_bytes?number / 4}];

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

/* The core stands still while the flash works, some 20 ms for a page, so this wait is a short one. */
static void finish(void)
{
    uint32_t patience = fixed_u32(BUS_PATIENCE);

    while (NVMC_READY == 0 && --patience != 0) {
    }
}

void settings_keep(sum_t trip)
{
    volatile uint32_t *write = (volatile uint32_t *)settings_page;
    uint32_t value = (uint${8 * bytes}_t)trip;

    settings_trip = trip;
    NVMC_CONFIG = NVMC_CONFIG_ERASES;
    finish();
    NVMC_ERASEPAGE = (uint32_t)settings_page;
    finish();
    NVMC_CONFIG = NVMC_CONFIG_WRITES;
    finish();
    write[0] = value;
    finish();
    write[1] = check_of(value);
    finish();
    NVMC_CONFIG = NVMC_CONFIG_READS;
}
