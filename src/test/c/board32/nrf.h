/*
 * What the peripherals of nRF51 share (reference manual v3.0, chapter "Peripheral interface"): a task
 * begins when 1 is written to it, an event is a register that stays 1 until the program clears it,
 * and PPI lets events begin tasks. Interrupts are enabled by the place of the event.
 */
#ifndef NRF_H
#define NRF_H

#include "models.h"

#define NRF_BYTES 0x1000u

/* The state of each model begins with this. */
struct nrf {
    uint32_t words[NRF_BYTES / 4];
};

enum { NRF_EVENTS = 0x100, NRF_EVENTS_END = 0x180, NRF_INTENSET = 0x304, NRF_INTENCLR = 0x308,
       NRF_ENABLE = 0x500, NRF_POWER = 0xFFC };

uint32_t *nrf_at(struct device *, uint32_t offset);
uint32_t nrf_get(const struct device *, uint32_t offset);
void nrf_event(struct device *, uint32_t offset);

/* For model.read, model.write and model.asks of peripherals without ways of their own. */
uint32_t nrf_read(struct device *, uint32_t offset);
void nrf_write(struct device *, uint32_t offset, uint32_t value);
unsigned nrf_asks(const struct device *);

#endif
