<#--
The part of pace.c that is the same for every timer. Whoever includes it has said before
what `due`, `clear` and `wait` are: macros that print C. For deep sleep it has said what `afresh`
is, and has included `nap.ftl` of the family: nap_begin makes the slow timer ready, nap_start lets it
count from now on, nap sleeps until it has counted once, nap_end gives the clock back that was lost.
-->
<#if t.sleep == "deep">
/* As long as the alarm is off nothing needs the tick, and the part can sleep deeply. */
static void pace_nap_through(void)
{
    uint16_t naps = fixed_u16(NAP_COUNT);

    nap_start();
    do {
<#if t.watchdog == "yes">
        port_watchdog_feed();
</#if>
        nap();
    } while (--naps != 0);
    nap_end();
    /* A tick that has passed since the last reading would shorten the next wait. */
<@afresh/>
}

</#if>
<#macro step indent>
<@clear indent/>
<#if t.watchdog == "yes">
${indent}port_watchdog_feed();
</#if>
<#if t.steps == "yes">
${indent}outputs_step();
</#if>
</#macro>
<#if t.left == "kept">
static void pace_step(void)
{
<@step "    "/>
    if (pace_left != 0) {
        --pace_left;
    }
}

void pace_tick(void)
{
<@wait "    "/>
    pace_step();
}

void pace_poll(void)
{
    if (<@due/>) {
        pace_step();
    }
}

void pace_rest(void)
{
<#if t.sleep == "deep">
    if (!alarm_on) {
        pace_nap_through();
        pace_left = 0;
    }
</#if>
    while (pace_left != 0) {
        pace_tick();
    }
    pace_left = fixed_period(PERIOD_TICKS);
}
<#else>
void pace_rest(void)
{
    period_t left = fixed_period(PERIOD_TICKS);

<#if t.sleep == "deep">
    if (!alarm_on) {
        pace_nap_through();
        return;
    }
</#if>
    do {
<@wait "        "/>
<@step "        "/>
    } while (--left != 0);
}
</#if>
