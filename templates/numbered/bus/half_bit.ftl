<#-- Waiting for half a bit; the loop is the core's. -->
/* Half a bit, less what the instructions around it take. */
__attribute__((noinline)) static void half_bit(void)
{
    uint32_t turns = fixed_u16(BUS_HALF_BIT);

<#include find("delay.ftl")>
}
