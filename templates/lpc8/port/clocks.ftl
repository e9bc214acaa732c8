<#-- Clocks of peripherals where they hang on that of the core: LPC81x, LPC82x, LPC83x. -->
#define I2C_CLOCK_RATIO 1u

static inline void bus_clock(void)
{
}

static inline void tone_clock(void)
{
}

/* Divided by 1 + fraction / 256, from what the core's clock is made of. */
static inline void serial_clock(uint8_t fraction)
{
    SYSCON_UARTCLKDIV = 1u;
    SYSCON_UARTFRGDIV = 0xFFu;
    SYSCON_UARTFRGMULT = fraction;
}

