#include "pins.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

struct pin pin_of(avr_t *avr, const char *name)
{
    bool active_low = name[0] == '!';
    const char *plain = active_low ? name + 1 : name;

    for (avr_io_t *io = avr->io_port; io != NULL; io = io->next) {
        if (strcmp(io->kind, "port") == 0 && ((avr_ioport_t *)io)->name == plain[0]) {
            return (struct pin){(avr_ioport_t *)io, (uint8_t)(1 << (plain[1] - '0')), active_low};
        }
    }
    fprintf(stderr, "no pin %s\n", name);
    exit(2);
}

bool pin_is_output(const avr_t *avr, struct pin pin)
{
    return (avr->data[pin.port->r_ddr] & pin.mask) != 0;
}

bool pin_latch(const avr_t *avr, struct pin pin)
{
    return (avr->data[pin.port->r_port] & pin.mask) != 0;
}

bool pin_is_on(const avr_t *avr, struct pin pin)
{
    return pin.port != NULL && pin_is_output(avr, pin) && pin_latch(avr, pin) != pin.active_low;
}

/* The simulator keeps what comes from outside in the input register. */
void pin_feed(avr_t *avr, struct pin pin, bool high)
{
    uint8_t *levels = &avr->data[pin.port->r_pin];

    *levels = (uint8_t)(high ? *levels | pin.mask : *levels & ~pin.mask);
}
