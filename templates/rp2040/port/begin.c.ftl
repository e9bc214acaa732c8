<#include "/portable/head.ftl">
<@head about="Makes the part ready: clock, watchdog, pins."/>
#include "port.h"

#include "registers.h"

void block_start(uint32_t blocks)
{
    /* It takes a few cycles. */
    uint32_t patience = fixed_u8(255);

    REGISTER_CLEAR(RESETS_RESET) = blocks;
    while ((RESETS_RESET_DONE & blocks) != blocks && --patience != 0) {
    }
}

/* The part starts from its ring oscillator, some 6 MHz. A crystal that is not ready in 80 ms is none. */
static void start_crystal(void)
{
    uint32_t patience = fixed_u32(0x10000);

    XOSC_CTRL = XOSC_CTRL_ON;
    while ((XOSC_STATUS & XOSC_STATUS_STABLE) == 0) {
        if (--patience == 0) {
            /* Rather slow and inexact than standing still on a clock that does not run. */
            return;
        }
    }
    /* The core's clock is the reference clock too, until it is switched to the PLL. */
    CLOCKS_CLK_REF_CTRL = CLOCKS_CLK_REF_CTRL_XOSC;
}

<#if t.clock == "crystal-pll">
/* Locks within a tenth of a millisecond; without, the core stays with the crystal. */
static void start_pll(void)
{
    uint32_t patience = fixed_u16(0x1000);

    block_start(RESETS_PLL_SYS);
    PLL_FBDIV = fixed_u8(120);
    REGISTER_CLEAR(PLL_PWR) = PLL_PWR_OFF;
    while ((PLL_CS & PLL_CS_LOCK) == 0) {
        if (--patience == 0) {
            return;
        }
    }
    PLL_PRIM = PLL_PRIM_30;
    REGISTER_CLEAR(PLL_PWR) = PLL_PWR_DIVIDER_OFF;
    CLOCKS_CLK_SYS_CTRL = CLOCKS_CLK_SYS_CTRL_PLL;
}

</#if>
void port_begin(void)
{
    start_crystal();
    CLOCKS_CLK_SYS_DIV = fixed_u16(CLOCK_SETTING);
<#if t.clock == "crystal-pll">
    start_pll();
</#if>
<#if t.watchdog == "yes">
    WATCHDOG_TICK = WATCHDOG_TICK_1_US;
    PSM_WDSEL = PSM_WDSEL_ALL;
    WATCHDOG_LOAD = fixed_u32(WATCHDOG_COUNT);
    REGISTER_SET(WATCHDOG_CTRL) = WATCHDOG_CTRL_ENABLE;
</#if>
    block_start(RESETS_IO_BANK0 | RESETS_PADS_BANK0);
<#include "/numbered/port/begin_pins.ftl">
}
