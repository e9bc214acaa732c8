<#-- Outputs off and driven, inputs with their pull-up; pins of peripherals are theirs to set. -->
<#macro driven role active>
<#if active == "low">
    pin_drive(fixed_u8(PIN_${role}), true);
</#if>
    pin_become(fixed_u8(PIN_${role}), PIN_DRIVEN);
</#macro>
<#if pin.lamp??>
<@driven "LAMP" has.outputs.lamp_on/>
</#if>
<#if pin.relay??>
<@driven "RELAY" has.outputs.relay_on/>
</#if>
<#if pin.sounder??>
<@driven "SOUNDER" "high"/>
</#if>
<#if pin.mute??>
    pin_become(fixed_u8(PIN_MUTE), PIN_PULLED_UP);
</#if>
