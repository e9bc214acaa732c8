#include "flash.h"

#include <string.h>

#include "memory.h"
#include "models.h"

/* What a store must leave. */
static struct {
    bool waits;
    uint32_t address;
    uint8_t bytes[4];
    unsigned count;
} mend;

void flash_written(uint32_t address, uint32_t value, unsigned bytes)
{
    struct device *device = machine_device("flash");
    const uint8_t *old = core_memory(address, bytes);
    bool buffers = device->model->buffers != NULL;
    bool taken = device->model->takes != NULL && device->model->takes(device, address, bytes, old);

    if (buffers) {
        device->model->buffers(device, address, bytes, value);
    }

    mend.waits = true;
    mend.address = address;
    mend.count = bytes;
    memcpy(mend.bytes, taken ? (const uint8_t *)&value : old, bytes);
    if (!taken && !buffers) {
        machine_complain("flash is written as it cannot be", address);
    }
}

void flash_mend(void)
{
    if (mend.waits) {
        mend.waits = false;
        memcpy(core_memory(mend.address, mend.count), mend.bytes, mend.count);
    }
}

static unsigned until_cut;

void flash_cut(unsigned n)
{
    until_cut = n;
}

bool flash_is_cut(void)
{
    return until_cut != 0 && --until_cut == 0;
}

bool flash_fill(const uint8_t *bytes, unsigned count, uint32_t flash_bytes)
{
    uint32_t page = device_option(machine_device("flash"), "page", 1024);
    uint32_t place = machine_eeprom_bytes() != 0 ? machine_eeprom_base()
                                                 : machine_flash_base() + flash_bytes - page;
    uint8_t *memory = core_memory(place, count);

    if (memory != NULL) {
        memcpy(memory, bytes, count);
    }
    return memory != NULL;
}
