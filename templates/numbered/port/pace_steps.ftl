<#--
The part of pace.c that is the same for every timer. Whoever includes it has said before
what `due`, `clear` and `sleep_until_due` are: macros that print C.
-->
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
    while (pace_left != 0) {
        pace_tick();
    }
    pace_left = fixed_period(PERIOD_TICKS);
}
<#else>
void pace_rest(void)
{
    period_t left = fixed_period(PERIOD_TICKS);

    do {
<@wait "        "/>
<@step "        "/>
    } while (--left != 0);
}
</#if>
