/* The interrupt controller of QingKe cores. */
#ifndef PFIC_H
#define PFIC_H

/* The interrupt that wants in, or -1. */
int pfic_pending(void);
void pfic_entered(int interrupt);

#endif
