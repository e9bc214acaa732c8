<#-- What both hardware drivers share: the controller made ready, and the bus freed. -->
<#include "/numbered/bus/recover.ftl">

/* A controller that thinks the bus busy forgets it by a reset: RM0008 26.6.1, SWRST. */
static void prepare(void)
{
    CLOCKS_APB1 |= CLOCK_BUS;
    recover();
    pin_function_open(fixed_u8(PIN_SDA), 0);
    pin_function_open(fixed_u8(PIN_SCL), 0);
    BUS_CONTROL1 = BUS_RESET;
    BUS_CONTROL1 = 0;
    BUS_CONTROL2 = fixed_u8(BUS_FREQUENCY);
    BUS_CLOCK = fixed_u16(BUS_RATE);
<#if family.busPort.controller.get().registers.rise?? && family.busPort.controller.get().registers.rise == "yes">
    BUS_RISE = fixed_u16(BUS_RISE_TIME);
</#if>
    BUS_CONTROL1 = BUS_ON;
}
