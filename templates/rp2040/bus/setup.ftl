<#-- What both hardware drivers share: the block made ready, and the bus freed. -->
<#include "/numbered/bus/recover.ftl">

/*
 * The block cannot be taken out of a transfer in which a line is held: switched off, it waits for
 * the end of the byte. Its reset lets go of both lines at once, whatever it was doing.
 */
static void let_go(void)
{
    REGISTER_SET(RESETS_RESET) = RESETS_I2C0;
}

static void prepare(void)
{
    let_go();
    recover();
    block_start(RESETS_I2C0);
    /* Counts of Fast-mode serve both speeds: data sheet, 4.3.14. */
    IC_CON = IC_CON_CONTROLLER;
    IC_FS_SCL_HCNT = fixed_u16(BUS_HIGH);
    IC_FS_SCL_LCNT = fixed_u16(BUS_LOW);
    IC_FS_SPKLEN = fixed_u8(BUS_SPIKE);
    IC_SDA_HOLD = fixed_u8(BUS_HOLD);
    pin_function_open(fixed_u8(PIN_SDA), IO_I2C);
    pin_function_open(fixed_u8(PIN_SCL), IO_I2C);
}
