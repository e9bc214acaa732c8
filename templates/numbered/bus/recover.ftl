<#-- Frees a bus that a sensor holds, by hand. Both hardware drivers have it; needs port.h. -->
<#include "half_bit.ftl">

/*
 * A sensor that was cut off in the middle of a byte holds the data line: clock it free, then STOP.
 * The pins are the program's afterwards.
 */
static void recover(void)
{
    uint8_t clocks = fixed_u8(9);

    pin_release(fixed_u8(PIN_SDA));
    pin_release(fixed_u8(PIN_SCL));
    if (pin_is_high(fixed_u8(PIN_SDA))) {
        return;
    }
    do {
        pin_low(fixed_u8(PIN_SCL));
        half_bit();
        pin_release(fixed_u8(PIN_SCL));
        half_bit();
    } while (--clocks != 0);
    pin_low(fixed_u8(PIN_SCL));
    half_bit();
    pin_low(fixed_u8(PIN_SDA));
    half_bit();
    pin_release(fixed_u8(PIN_SCL));
    half_bit();
    pin_release(fixed_u8(PIN_SDA));
    half_bit();
}
