/*
 * Flash of SAM D10, D11, D20 and D21: data sheet of SAM D21 (DS40001882), "NVMCTRL". Stores go to a
 * buffer of one page of 64 bytes; commands erase a row of four pages, and write the buffer out.
 */
#include <string.h>

#include "flash.h"
#include "memory.h"
#include "models.h"

#define PAGE 64u
#define ROW 256u

enum { CTRLA = 0x00, CTRLB = 0x04, INTFLAG = 0x14, STATUS = 0x18, ADDR = 0x1C };
enum { KEY = 0xA5, ERASE_ROW = 0x02, WRITE_PAGE = 0x04, CLEAR_BUFFER = 0x44, READY = 1, MANW = 0x80, SLEEPPRM = 3u << 8 };

/* Electrical characteristics, "NVM characteristics", at most. */
#define WRITE_NS 2500000
#define ERASE_NS 6000000

struct nvm {
    uint32_t ctrlb, addr;
    uint8_t buffer[PAGE];
    bool busy;
    uint64_t done_at;
};

static void reset(struct device *device)
{
    memset(((struct nvm *)device->state)->buffer, 0xFF, PAGE);
}

static void work(struct nvm *nvm, uint64_t ns)
{
    nvm->busy = true;
    nvm->done_at = machine_cycle() + machine_cycles_in(ns);
}

static void erase_row(struct nvm *nvm)
{
    uint8_t *row = core_memory(nvm->addr * 2 & ~(ROW - 1), ROW);

    if (row == NULL) {
        machine_complain("a row is erased that there is not", nvm->addr * 2);
        return;
    }
    memset(row, 0xFF, ROW);
    work(nvm, ERASE_NS);
}

/* Writing can only make zeros of ones. */
static void write_page(struct nvm *nvm)
{
    uint8_t *page = core_memory(nvm->addr * 2 & ~(PAGE - 1), PAGE);

    if (page == NULL) {
        machine_complain("a page is written that there is not", nvm->addr * 2);
        return;
    }
    for (unsigned i = 0; i < PAGE; i++) {
        if ((page[i] & nvm->buffer[i]) != nvm->buffer[i]) {
            machine_complain("a page is written that is not erased", nvm->addr * 2);
        }
        page[i] &= nvm->buffer[i];
    }
    work(nvm, WRITE_NS);
}

static void command(struct device *device, uint32_t value)
{
    struct nvm *nvm = device->state;

    if (value >> 8 != KEY || nvm->busy) {
        machine_complain("a command without its key, or while another one runs", device->base);
    } else if ((value & 0x7F) == ERASE_ROW) {
        erase_row(nvm);
    } else if ((value & 0x7F) == WRITE_PAGE) {
        write_page(nvm);
    } else if ((value & 0x7F) == CLEAR_BUFFER) {
        memset(nvm->buffer, 0xFF, PAGE);
    } else {
        machine_complain("a command that is not modelled", device->base);
    }
}

static void write(struct device *device, uint32_t offset, uint32_t value, unsigned bytes)
{
    struct nvm *nvm = device->state;

    if (offset == CTRLA && bytes == 2) {
        command(device, value);
    } else if (offset == CTRLB && bytes == 4) {
        nvm->ctrlb = value;
    } else if (offset == ADDR && bytes == 4) {
        nvm->addr = value & 0x3FFFFF;
    } else {
        machine_complain("a write that NVMCTRL does not know", device->base + offset);
    }
}

static uint32_t read(struct device *device, uint32_t offset, unsigned bytes)
{
    const struct nvm *nvm = device->state;

    (void)bytes;
    return offset == INTFLAG ? !nvm->busy : offset == CTRLB ? nvm->ctrlb : offset == ADDR ? nvm->addr : 0;
}

/* Words and half words only; where they go is the address of the next command. */
static void buffers(struct device *device, uint32_t address, unsigned bytes, uint32_t value)
{
    struct nvm *nvm = device->state;

    if (bytes == 1 || nvm->busy || (nvm->ctrlb & MANW) == 0) {
        machine_complain("a byte is stored, or while NVMCTRL is at work, or without MANW", address);
    }
    memcpy(nvm->buffer + address % PAGE, &value, bytes);
    nvm->addr = address / 2;
}

static uint64_t due(const struct device *device)
{
    const struct nvm *nvm = device->state;

    return nvm->busy ? nvm->done_at : NEVER;
}

static void step(struct device *device)
{
    ((struct nvm *)device->state)->busy = false;
}

/* Errata, reference 13140, where `awake=1`. */
static void stop(struct device *device)
{
    const struct nvm *nvm = device->state;

    if (device_option(device, "awake", 0) != 0 && (nvm->ctrlb & SLEEPPRM) != SLEEPPRM) {
        machine_complain("the flash sleeps, and may not wake", device->base);
    }
}

const struct model nvmctrl_model = {
    .kind = "nvmctrl", .state_bytes = sizeof(struct nvm), .reset = reset, .read_bytes = read,
    .write_bytes = write, .due = due, .step = step, .stop = stop, .buffers = buffers};
