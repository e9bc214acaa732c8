/*
 * Flash with KEYR, SR, CR and AR, written a half word at a time: RM0091 (STM32F0), section 3; PM0075
 * (STM32F1); CH32V003 reference manual, section 16, where it is 4-byte pages of 64 bytes too (left out).
 */
#include <string.h>

#include "memory.h"
#include "models.h"

enum { ACR = 0x00, KEYR = 0x04, SR = 0x0C, CR = 0x10, AR = 0x14 };
enum { BSY = 1u << 0, PGERR = 1u << 2, EOP = 1u << 5, PG = 1u << 0, PER = 1u << 1, STRT = 1u << 6,
       LOCK = 1u << 7 };
#define KEY1 0x45670123u
#define KEY2 0xCDEF89ABu

/* Data sheet of STM32F030, "Flash memory characteristics", typical; the erase at its most. */
#define PROGRAM_NS 53500
#define ERASE_NS 40000000

struct flash {
    uint32_t acr, sr, cr, ar;
    bool half_open;
    uint64_t done_at;
};

static void reset(struct device *device)
{
    ((struct flash *)device->state)->cr = LOCK;
}

static void busy(struct flash *flash, uint64_t ns)
{
    flash->sr |= BSY;
    flash->done_at = machine_cycle() + machine_cycles_in(ns);
}

static uint64_t due(const struct device *device)
{
    const struct flash *flash = device->state;

    return (flash->sr & BSY) != 0 ? flash->done_at : NEVER;
}

static void step(struct device *device)
{
    struct flash *flash = device->state;

    flash->sr = (flash->sr & ~(uint32_t)BSY) | EOP;
    flash->cr &= ~(uint32_t)STRT;
}

static void erase(struct device *device)
{
    struct flash *flash = device->state;
    uint32_t page = device_option(device, "page", 1024);
    uint8_t *memory = core_memory(flash->ar & ~(page - 1), page);

    if (memory == NULL) {
        machine_complain("a page is erased that there is not", flash->ar);
        return;
    }
    memset(memory, 0xFF, page);
    busy(flash, ERASE_NS);
}

static void write_cr(struct device *device, uint32_t value)
{
    struct flash *flash = device->state;

    if ((flash->cr & LOCK) != 0) {
        machine_complain("flash is locked", device->base + CR);
        return;
    }
    flash->cr = value;
    if ((value & STRT) != 0 && (value & PER) != 0) {
        erase(device);
    }
}

static void write(struct device *device, uint32_t offset, uint32_t value)
{
    struct flash *flash = device->state;

    if (offset == ACR) {
        flash->acr = value;
    } else if (offset == KEYR) {
        if (value == KEY2 && flash->half_open) {
            flash->cr &= ~(uint32_t)LOCK;
        }
        flash->half_open = value == KEY1;
    } else if (offset == SR) {
        flash->sr &= ~(value & (PGERR | EOP));
    } else if (offset == CR) {
        write_cr(device, value);
    } else if (offset == AR) {
        flash->ar = value;
    }
}

static uint32_t read(struct device *device, uint32_t offset)
{
    const struct flash *flash = device->state;

    switch (offset) {
    case ACR:
        return flash->acr;
    case SR:
        return flash->sr;
    case CR:
        return flash->cr;
    case AR:
        return flash->ar;
    default:
        return 0;
    }
}

/* Only an erased half word can be written. */
static bool takes(struct device *device, uint32_t address, unsigned bytes, const uint8_t *old)
{
    struct flash *flash = device->state;
    bool good = (flash->cr & PG) != 0 && bytes == 2 && old[0] == 0xFF && old[1] == 0xFF &&
                (flash->sr & BSY) == 0;

    (void)address;
    if (good) {
        busy(flash, PROGRAM_NS);
    } else {
        flash->sr |= PGERR;
    }
    return good;
}

const struct model flash_f_model = {
    .kind = "flash_f", .state_bytes = sizeof(struct flash), .reset = reset, .read = read,
    .write = write, .due = due, .step = step, .takes = takes};
