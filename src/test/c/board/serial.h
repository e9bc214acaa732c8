/* A receiver on the serial line. */
#ifndef SERIAL_H
#define SERIAL_H

#include "pins.h"

/* Listens to every serial port of the part, which must know its characters' length. */
void serial_begin_hardware(avr_t *avr);

/* Listens to a pin that the program moves, at so many nanoseconds a bit. */
void serial_begin_pin(struct pin pin, uint64_t bit_ns);

/* Sees the pin; call it at every step. */
void serial_step(const avr_t *avr, uint64_t ns);

#endif
