/* What the core needs of the interrupt controller of Bumblebee. */
#ifndef ECLIC_H
#define ECLIC_H

#include <stdbool.h>

/* The interrupt that comes first, or -1. */
int eclic_pending(void);
void eclic_entered(int interrupt);
bool eclic_is_vectored(int interrupt);

#endif
