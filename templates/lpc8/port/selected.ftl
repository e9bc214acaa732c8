<#-- Clocks of peripherals where each has a choice: LPC84x, LPC80x. All take what the core's clock is made of. -->
#define SYSCON_UART0CLKSEL REGISTER(0x40048090u)
#define SYSCON_UART0CLKSEL_FRG0 2u
#define SYSCON_I2C0CLKSEL REGISTER(0x400480A4u)
#define SYSCON_I2C0CLKSEL_MAIN 1u
#define SYSCON_FRG0DIV REGISTER(0x400480D0u)
#define SYSCON_FRG0MULT REGISTER(0x400480D4u)
#define SYSCON_FRG0CLKSEL REGISTER(0x400480D8u)
#define SYSCON_FRG0CLKSEL_MAIN 1u
#define I2C_CLOCK_RATIO SYSCON_SYSAHBCLKDIV

static inline void bus_clock(void)
{
    SYSCON_I2C0CLKSEL = SYSCON_I2C0CLKSEL_MAIN;
}

/* Divided by 1 + fraction / 256. */
static inline void serial_clock(uint8_t fraction)
{
    SYSCON_FRG0CLKSEL = SYSCON_FRG0CLKSEL_MAIN;
    SYSCON_FRG0DIV = 0xFFu;
    SYSCON_FRG0MULT = fraction;
    SYSCON_UART0CLKSEL = SYSCON_UART0CLKSEL_FRG0;
}

