/* Flash and RAM of the part, and where its core stands. */
#ifndef MEMORY_H
#define MEMORY_H

#include <stdbool.h>
#include <stdint.h>

/* Where so many bytes are kept, or null where the part has none. */
uint8_t *core_memory(uint32_t address, uint32_t bytes);

uint32_t core_ram_bytes(void);
uint32_t core_stack_pointer(void);

/* Whether no handler may run now. */
bool core_is_masked(void);

#endif
