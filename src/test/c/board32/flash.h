/* What becomes of flash, or of data EEPROM, when the program writes to it. */
#ifndef FLASH_H
#define FLASH_H

#include <stdbool.h>
#include <stdint.h>

/* A store to flash is about to happen; flash_mend, called after it, lets happen what really does. */
void flash_written(uint32_t address, uint32_t value, unsigned bytes);
void flash_mend(void);

/* The n-th change of the flash from now on, from 1, is the one that the power fails in. */
void flash_cut(unsigned n);

/* Whether that is the change which begins now. */
bool flash_is_cut(void);

/* Fills the place of the settings before the program runs: EEPROM, or the last page of flash. */
bool flash_fill(const uint8_t *bytes, unsigned count, uint32_t flash_bytes);

#endif
