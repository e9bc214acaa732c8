/*
 * Flash of STM32G0 (RM0454, section 3) and C0 (RM0490, section 4): two words at a time, pages of
 * 2 KiB. Before the clock is raised LATENCY is to be read back: "FLASH read access latency".
 */
#include "models.h"

#include <string.h>

#include "flash.h"
#include "memory.h"

enum { ACR = 0x00, KEYR = 0x08, SR = 0x10, CR = 0x14 };
enum { EOP = 1u << 0, PROGERR = 1u << 3, BSY1 = 1u << 16, CFGBSY = 1u << 18 };
enum { PG = 1u << 0, PER = 1u << 1, STRT = 1u << 16 };
#define LOCK (1u << 31)
#define KEY1 0x45670123u
#define KEY2 0xCDEF89ABu

/* Data sheet of STM32G030, "Flash memory characteristics", at most. */
#define PROGRAM_NS 125000
#define ERASE_NS 40000000

struct flash {
    uint32_t acr, sr, cr;
    bool half_open, half_written;
    uint64_t done_at;
};

static void reset(struct device *device)
{
    ((struct flash *)device->state)->cr = LOCK;
}

static void busy(struct flash *flash, uint64_t ns)
{
    flash->sr |= BSY1;
    flash->done_at = machine_cycle() + machine_cycles_in(ns);
}

static uint64_t due(const struct device *device)
{
    const struct flash *flash = device->state;

    return (flash->sr & BSY1) != 0 ? flash->done_at : NEVER;
}

static void step(struct device *device)
{
    struct flash *flash = device->state;

    flash->sr = (flash->sr & ~(uint32_t)BSY1) | EOP;
    flash->cr &= ~(uint32_t)STRT;
}

static void erase(struct device *device)
{
    struct flash *flash = device->state;
    uint32_t page = device_option(device, "page", 2048);
    uint32_t address = machine_flash_base() + (flash->cr >> 3 & 0x7F) * page;
    uint8_t *memory = core_memory(address, page);

    if (memory == NULL) {
        machine_complain("a page is erased that there is not", address);
        return;
    }
    memset(memory, 0xFF, page);
    busy(flash, ERASE_NS);
}

static void write(struct device *device, uint32_t offset, uint32_t value)
{
    struct flash *flash = device->state;

    if (offset == ACR) {
        flash->acr = value;
    } else if (offset == KEYR) {
        if (value == KEY2 && flash->half_open) {
            flash->cr &= ~LOCK;
        }
        flash->half_open = value == KEY1;
    } else if (offset == SR) {
        flash->sr &= ~(value & 0xFFFF);
    } else if (offset == CR && (flash->cr & LOCK) != 0) {
        machine_complain("flash is locked", device->base + CR);
    } else if (offset == CR) {
        flash->cr = value;
        if ((value & STRT) != 0 && (value & PER) != 0) {
            erase(device);
        }
    }
}

static uint32_t read(struct device *device, uint32_t offset)
{
    const struct flash *flash = device->state;

    return offset == ACR ? flash->acr : offset == SR ? flash->sr : offset == CR ? flash->cr : 0;
}

/* A pair of words, the first at a multiple of eight, written one after the other. */
static bool takes(struct device *device, uint32_t address, unsigned bytes, const uint8_t *old)
{
    struct flash *flash = device->state;
    bool second = (address & 4) != 0;
    bool good = bytes == 4 && (flash->cr & PG) != 0 && second == flash->half_written &&
                memcmp(old, "\xFF\xFF\xFF\xFF", 4) == 0 && (flash->sr & BSY1) == 0;

    flash->half_written = good && !second;
    if (good && second) {
        busy(flash, PROGRAM_NS);
    } else if (!good) {
        flash->sr |= PROGERR;
    }
    return good;
}

const struct model flash_g_model = {
    .kind = "flash_g", .state_bytes = sizeof(struct flash), .reset = reset, .read = read,
    .write = write, .due = due, .step = step, .takes = takes};
