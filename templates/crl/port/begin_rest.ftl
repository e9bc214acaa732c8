    CLOCKS_APB2 = CLOCK_PORTS;
    REMAP = fixed_u32(REMAP_WORD);
<#if t.watchdog == "yes">
    WATCHDOG_KEY = 0xCCCCu;
    WATCHDOG_KEY = 0x5555u;
    WATCHDOG_SCALE = fixed_u8(WATCHDOG_PRESCALER);
    WATCHDOG_TIME = fixed_u16(WATCHDOG_RELOAD);
    WATCHDOG_KEY = 0xAAAAu;
</#if>
<#include "/numbered/port/begin_pins.ftl">
