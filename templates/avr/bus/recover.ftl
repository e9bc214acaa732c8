<#-- Frees a bus that a sensor holds, by hand. Both hardware drivers have it. -->
/* Lets go of the clock, or pulls it down, for half a bit. */
static void clock_line(bool high)
{
    if (high) {
        DDR${pin.scl.port} &= (uint8_t)~PORT_BIT(${pin.scl.bit});
    } else {
        DDR${pin.scl.port} |= PORT_BIT(${pin.scl.bit});
    }
    _delay_loop_1(fixed_u8(BUS_HALF_BIT));
}

/* A sensor that was cut off in the middle of a byte holds the data line: clock it free, then STOP. */
static void recover(void)
{
    uint8_t clocks = fixed_u8(9);

    if ((PIN${pin.sda.port} & PORT_BIT(${pin.sda.bit})) != 0) {
        return;
    }
    ${r.control} = 0;
    do {
        clock_line(false);
        clock_line(true);
    } while (--clocks != 0);
    clock_line(false);
    DDR${pin.sda.port} |= PORT_BIT(${pin.sda.bit});
    clock_line(true);
    DDR${pin.sda.port} &= (uint8_t)~PORT_BIT(${pin.sda.bit});
}
