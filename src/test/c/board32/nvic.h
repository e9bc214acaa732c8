/* The interrupt controller of Cortex-M. Numbers are those of exceptions: interrupt 0 is 16. */
#ifndef NVIC_H
#define NVIC_H

#include <stdbool.h>
#include <stdint.h>

/* The exception that wants in, or -1. */
int nvic_pending(void);
void nvic_entered(int exception);

/* An interrupt becomes pending, from which an event may come: B1.5.18, SEVONPEND. */
void nvic_pends(int interrupt);

/* Whether the next sleep is a deep one. */
bool nvic_sleeps_deep(void);

/* Whether the tick asks for interrupts. */
bool nvic_tick_asks(void);

/* Where the table of vectors is. */
uint32_t nvic_table(void);

#endif
