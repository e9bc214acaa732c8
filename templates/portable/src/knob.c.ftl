<#include "/portable/head.ftl">
<@head about="The limit that the knob is set to."/>
#include "knob.h"

#include "../port/port.h"

<#assign wide = (t.wide == "yes")?then("u32", "u16") type = (t.wide == "yes")?then("uint32_t", "uint16_t")>
sum_t knob_limit(void)
{
    uint16_t code = port_knob();
    ${type} scaled = 0;
    uint8_t bits = 10;

    /* code * KNOB_MULTIPLIER / 1024, bit by bit: shorter than a multiplication routine. */
    do {
        if ((code & 1) != 0) {
            scaled += fixed_${wide}(KNOB_MULTIPLIER);
        }
        scaled >>= 1;
        code >>= 1;
    } while (--bits != 0);
    return (sum_t)(fixed_sum(KNOB_LOW) ${(t.rising == "yes")?then("+", "-")} (sum_t)scaled);
}
