/* The interrupt controller of QingKe cores. */
#ifndef PFIC_H
#define PFIC_H

#include <stdbool.h>

/* The interrupt that wants in, or -1. */
int pfic_pending(void);
void pfic_entered(int interrupt);

/* Whether the next wfi is a deep sleep, and whether an event ends it. */
bool pfic_sleeps_deep(void);
bool pfic_waits_for_event(void);

#endif
