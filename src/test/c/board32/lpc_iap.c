/*
 * Flash of the LPC800 series, which a routine in ROM writes: UM10601 22.5.2, UM10800 25.6 and, for what it needs of
 * the RAM, 25.7.2; LPC84x, UM11029 5.6, and LPC80x alike. Pages of 64 bytes, sectors of 1 KiB.
 */
#include <string.h>

#include "flash.h"
#include "memory.h"
#include "models.h"

#define PAGE 64u
#define SECTOR 1024u
#define STACK_BYTES 148u
#define TOP_BYTES 32u
#define RUBBISH 0xEE

/* Data sheets, "Flash characteristics": erase 100 ms, program 1 ms. */
#define ERASE_NS 100000000
#define PROGRAM_NS 1000000

enum command { PREPARE = 50, COPY = 51, ERASE_SECTOR = 52, ERASE_PAGE = 59 };
enum status { SUCCESS = 0, INVALID_COMMAND = 1, SRC_ADDR_ERROR = 2, DST_ADDR_ERROR = 3, SRC_NOT_MAPPED = 4,
              DST_NOT_MAPPED = 5, COUNT_ERROR = 6, INVALID_SECTOR = 7, NOT_PREPARED = 9, PARAM_ERROR = 12 };

struct iap {
    /* None while the last is before the first. */
    bool prepared;
    uint32_t first, last;
};

/* Its stack is the caller's, and the top of the RAM is its own while it changes the flash. */
static void use_ram(bool changes)
{
    uint32_t sp = core_stack_pointer();
    uint8_t *stack = core_memory(sp - STACK_BYTES, STACK_BYTES);
    uint8_t *top = core_memory(machine_ram_base() + core_ram_bytes() - TOP_BYTES, TOP_BYTES);

    if (stack == NULL) {
        machine_complain("the routine in ROM has no stack", sp);
    } else {
        memset(stack, RUBBISH, STACK_BYTES);
    }
    if (changes) {
        memset(top, RUBBISH, TOP_BYTES);
    }
}

static bool is_prepared(const struct iap *iap, uint32_t from, uint32_t bytes)
{
    return iap->prepared && from / SECTOR >= iap->first && (from + bytes - 1) / SECTOR <= iap->last;
}

static enum status prepare(struct iap *iap, const uint32_t *words)
{
    if (words[2] < words[1] || core_memory(machine_flash_base() + words[2] * SECTOR, PAGE) == NULL) {
        return INVALID_SECTOR;
    }
    iap->prepared = true;
    iap->first = words[1];
    iap->last = words[2];
    return SUCCESS;
}

static enum status erase(struct iap *iap, const uint32_t *words, uint32_t unit)
{
    uint32_t from = words[1] * unit, bytes = (words[2] - words[1] + 1) * unit;
    uint8_t *memory = words[2] < words[1] ? NULL : core_memory(machine_flash_base() + from, bytes);

    if (memory == NULL) {
        return INVALID_SECTOR;
    }
    if (!is_prepared(iap, from, bytes)) {
        return NOT_PREPARED;
    }
    memset(memory, 0xFF, bytes);
    machine_pass(machine_cycles_in(ERASE_NS));
    return SUCCESS;
}

static enum status copy(struct iap *iap, const uint32_t *words)
{
    uint32_t to = words[1], from = words[2], bytes = words[3];
    bool counts = bytes == 64 || bytes == 128 || bytes == 256 || bytes == 512 || bytes == 1024;
    uint8_t *flash = counts ? core_memory(to, bytes) : NULL;
    const uint8_t *ram = counts && from >= machine_ram_base() ? core_memory(from, bytes) : NULL;

    if (!counts || from % 4 != 0 || to % PAGE != 0) {
        return !counts ? COUNT_ERROR : from % 4 != 0 ? SRC_ADDR_ERROR : DST_ADDR_ERROR;
    }
    if (flash == NULL || ram == NULL) {
        return flash == NULL ? DST_NOT_MAPPED : SRC_NOT_MAPPED;
    }
    if (!is_prepared(iap, to, bytes)) {
        return NOT_PREPARED;
    }
    for (uint32_t i = 0; i < bytes; i++) {
        if ((flash[i] & ram[i]) != ram[i]) {
            machine_complain("flash is written that is not erased", to + i);
        }
        flash[i] &= ram[i];
    }
    machine_pass(machine_cycles_in(PROGRAM_NS));
    return SUCCESS;
}

static enum status obey(struct iap *iap, const uint32_t *words)
{
    switch (words[0]) {
    case PREPARE:
        return prepare(iap, words);
    case COPY:
        return copy(iap, words);
    case ERASE_SECTOR:
        return erase(iap, words, SECTOR);
    case ERASE_PAGE:
        return erase(iap, words, PAGE);
    default:
        return INVALID_COMMAND;
    }
}

/* The clock in kHz is the last word of a command that changes the flash. */
static void check(const uint32_t *words)
{
    uint32_t khz = words[words[0] == COPY ? 4 : 3];

    if (!core_is_masked()) {
        machine_complain("a handler may run while the flash cannot be read", 0);
    }
    if (khz != machine_hz() / 1000) {
        machine_complain("the routine in ROM is told a wrong clock", khz);
    }
}

static void call(struct device *device, uint32_t parameters, uint32_t results)
{
    struct iap *iap = device->state;
    const uint8_t *given = core_memory(parameters, 20);
    uint32_t words[5] = {0}, status;
    bool changes;

    memcpy(words, given == NULL ? core_memory(parameters, 16) : given, given == NULL ? 16 : 20);
    changes = words[0] != PREPARE;
    if (changes) {
        check(words);
    }
    status = obey(iap, words);
    use_ram(changes);
    iap->prepared = iap->prepared && !changes;
    memcpy(core_memory(results, 4), &status, 4);
    if (status != SUCCESS) {
        machine_complain("the routine in ROM refuses a command", status);
    }
}

const struct model lpc_iap_model = {.kind = "lpc_iap", .state_bytes = sizeof(struct iap), .call = call};
