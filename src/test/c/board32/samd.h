/* What models of SAM D parts share. */
#ifndef SAMD_H
#define SAMD_H

#include "machine.h"

/* The factory's row of calibration, as the model has it. */
#define CALIBRATION_LINEARITY 0xA5u
#define CALIBRATION_BIAS 0x5u

/* The generic clock of a peripheral, in Hz, by its option `gclk`; complains where there is none. */
double samd_clock(const struct device *);

/* Whether that clock is one that Standby does not stop. */
bool samd_clock_goes_on(const struct device *);

#endif
