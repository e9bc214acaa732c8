<#-- Without a tone the sounder's pin is a plain output, and low. -->
<#if tone??>
    pin_mode(fixed_u8(PIN_SOUNDER), PIN_OUTPUT);
</#if>
