/* SPDX-License-Identifier: 0BSD */
/*
 * What the alarm drives.
 *
 * compost-heap watering, for ATtiny1634. Written by ullage from a loop file: to change
 * a number, change it there and emit again.
 */
#include "outputs.h"

#include "../port/port.h"

void outputs_show(bool on)
{
    port_relay(on);
}
