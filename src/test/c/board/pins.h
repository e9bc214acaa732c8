/* Pins of the simulated part, as the board around it sees them. */
#ifndef PINS_H
#define PINS_H

#include <stdbool.h>
#include <stdint.h>

#include <simavr/avr_ioport.h>
#include <simavr/sim_avr.h>

/* `port` is null for a pin that is not wired. */
struct pin {
    const avr_ioport_t *port;
    uint8_t mask;
    bool active_low;
};

/* By a name such as B3; !B3 for a pin whose low level switches something on. */
struct pin pin_of(avr_t *avr, const char *name);

/* Whether the part drives the pin, and what it would drive it to. */
bool pin_is_output(const avr_t *avr, struct pin pin);
bool pin_latch(const avr_t *avr, struct pin pin);

/* Driven to the level that switches on what hangs on it. */
bool pin_is_on(const avr_t *avr, struct pin pin);

/* The level that the outside world puts on the pin. */
void pin_feed(avr_t *avr, struct pin pin, bool high);

#endif
