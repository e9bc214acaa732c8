/* What both kinds of converter share. */
#ifndef ADC_H
#define ADC_H

#include "models.h"

/* What is at the pin of a channel: `inputs` of families.txt, the pin of channel 0 first. */
uint32_t adc_sample(const struct device *, unsigned channel);

/* Complains outside `least` and `most`. */
void adc_check_clock(const struct device *, uint32_t hz);

/* Cycles of the core for so many of the converter's clock. */
uint64_t adc_cycles(double ticks, uint32_t hz);

/* From switching on to the first conversion: data sheets, "ADC characteristics", tSTAB, at most. */
#define ADC_STABLE_NS 1000

#endif
