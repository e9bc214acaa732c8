<#-- What both hardware drivers share: the controller made ready, and the bus freed. -->
<#include find("bus/recover.ftl")>

/* What is written gets to the controller some clocks later. */
static void settle(void)
{
    uint32_t patience = fixed_u32(BUS_PATIENCE);

    while ((I2C_SYNC & I2C_SYNC_BUSY) != 0 && --patience != 0) {
    }
}

/* A reset makes the controller forget what it was at, and let go of the pins. */
static void let_go(void)
{
    I2C_CTRLA = I2C_CTRLA_SWRST;
    settle();
}

static bool is_idle(void)
{
    return (I2C_STATUS & I2C_STATUS_BUSSTATE) == I2C_STATUS_IDLE;
}

static void prepare(void)
{
    PM_APBCMASK |= PM_APBCMASK_I2C;
    GCLK_CLKCTRL = GCLK_CLKCTRL_ON | GCLK_I2C;
    let_go();
    recover();
    pin_function_open(fixed_u8(PIN_SDA), fixed_u8(BUS_AF));
    pin_function_open(fixed_u8(PIN_SCL), fixed_u8(BUS_AF));
    I2C_BAUD = fixed_u16(BUS_RATE);
    I2C_CTRLA = I2C_CTRLA_MASTER | I2C_CTRLA_SDAHOLD | I2C_CTRLA_ENABLE;
    settle();
    /* The controller does not know yet that nobody else is on the bus. */
    I2C_STATUS = I2C_STATUS_IDLE;
    settle();
}
