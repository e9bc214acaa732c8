/* Flash and RAM of the part. */
#ifndef MEMORY_H
#define MEMORY_H

#include <stdint.h>

/* Where so many bytes are kept, or null where the part has none. */
uint8_t *core_memory(uint32_t address, uint32_t bytes);

#endif
