<#include "/portable/head.ftl">
<@head about="Notices a sensor whose value no longer changes at all."/>
#include "reading.h"

static value_t frozen_value;
static uint8_t frozen_readings;

bool reading_frozen(value_t value)
{
    if (value != frozen_value) {
        frozen_value = value;
        frozen_readings = 0;
        return false;
    }
    if (++frozen_readings >= fixed_compare(FROZEN_AFTER)) {
        /* Stays below the limit, so that it cannot run over. */
        --frozen_readings;
        return true;
    }
    return false;
}
