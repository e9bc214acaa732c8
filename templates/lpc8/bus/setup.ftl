<#-- What both hardware drivers share: the bus freed by hand, then handed to the controller. -->
<#include find("bus/recover.ftl")>

/* Off is a reset of the controller's inside: UM10601 16.6.1, UM10800 16.6.1, MSTEN. */
static void prepare(void)
{
    SYSCON_ON |= SYSCON_ON_I2C;
    bus_clock();
    I2C_CFG = 0;
    pin_function(PIN_NONE, fixed_u8(BUS_SDA));
    pin_function(PIN_NONE, fixed_u8(BUS_SCL));
    recover();
    pin_function_open(fixed_u8(PIN_SDA), fixed_u8(BUS_SDA));
    pin_function_open(fixed_u8(PIN_SCL), fixed_u8(BUS_SCL));
    I2C_CLKDIV = fixed_u16(BUS_DIVIDER) * I2C_CLOCK_RATIO - 1u;
    I2C_MSTTIME = fixed_u8(BUS_TIME);
    I2C_STAT = I2C_STAT_TROUBLE;
    I2C_CFG = I2C_CFG_MSTEN;
}
