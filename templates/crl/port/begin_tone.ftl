<#-- The timer of the tone runs from the start; its output is forced low until it is wanted. -->
<#if tone??>
<#assign r = tone.timer.registers>
    ${r.enable} |= ${r.enable_bit};
    REMAP |= fixed_u32(TONE_REMAP);
    TONE_PRESCALER = fixed_u16(TONE_CLOCK_SELECT);
    TONE_RELOAD = fixed_u16(TONE_TOP);
    *TONE_MODE = TONE_LOW;
    TONE_ENABLE = 1u << (4u * (TONE_CHANNEL - 1u));
    TONE_UPDATE = 1u;
    TONE_CONTROL = 1u;
    pin_function(fixed_u8(PIN_SOUNDER), 0);
</#if>
