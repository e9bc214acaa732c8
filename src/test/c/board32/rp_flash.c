/*
 * The flash chip beside an RP2040 and the interface that reads it and gives it commands. Interface:
 * RP2040 data sheet, 2.6.3 (XIP, and the cache in front of it) and 4.10 (SSI); it reads as long as it
 * is set up as the boot stage does. Chip: data sheet of W25Q16JV, 8.2 (commands 02h, 03h, 05h, 06h and
 * 20h) and 9.6 (times, the longest). From memory.
 */
#include <string.h>

#include "flash.h"
#include "memory.h"
#include "models.h"

#define SECTOR 4096u
#define SECTORS_MOST 256u
#define PAGE 256u
#define ADDRESS_MASK 0x00FFFFFFu
#define FIFO 16u

#define ERASE_NS UINT64_C(400000000)
#define PROGRAM_NS UINT64_C(3000000)

enum { CTRLR0 = 0x00, CTRLR1 = 0x04, SSIENR = 0x08, SER = 0x10, BAUDR = 0x14, SR = 0x28, DR0 = 0x60,
       SPI_CTRLR0 = 0xF4, REGISTERS_BYTES = 0x100 };
enum { BUSY = 1, TFNF = 2, TFE = 4, RFNE = 8 };
enum { PROGRAM = 0x02, STATUS = 0x05, WRITE_ENABLE = 0x06, ERASE = 0x20 };

/* Its power does not go with a reset of the part. */
static struct {
    bool may_write;
    /* What it is selected for: bytes that have come so far. */
    uint8_t command[4 + PAGE];
    unsigned count;
    /* What it is at: 0, PROGRAM or ERASE, with the command that said so. */
    uint8_t work;
    uint8_t order[4 + PAGE];
    unsigned order_bytes;
    uint64_t done_ns;
    bool cut;
} chip;

/* Sectors of which the cache may hold what was in them before. */
static bool stale[SECTORS_MOST];

struct queue {
    uint32_t frames[FIFO];
    unsigned count;
};

struct ssi {
    uint32_t registers[REGISTERS_BYTES / 4];
    struct queue out, in;
    bool shifts;
    uint32_t shifted;
    uint64_t end_at;
};

static uint32_t address_in(const uint8_t *command)
{
    return (uint32_t)command[1] << 16 | (uint32_t)command[2] << 8 | command[3];
}

static void push(struct queue *queue, uint32_t frame)
{
    if (queue->count == FIFO) {
        machine_complain("a FIFO of the flash's interface runs over", frame);
        return;
    }
    queue->frames[queue->count++] = frame;
}

static uint32_t pull(struct queue *queue)
{
    uint32_t frame = queue->frames[0];

    if (queue->count == 0) {
        machine_complain("a FIFO of the flash's interface is empty", 0);
        return 0;
    }
    memmove(queue->frames, queue->frames + 1, --queue->count * sizeof frame);
    return frame;
}

/* The byte that the chip answers with while it takes one. */
static uint8_t chip_byte(uint8_t byte)
{
    if (chip.count < sizeof chip.command) {
        chip.command[chip.count] = byte;
    }
    ++chip.count;
    if (chip.count > 1 && chip.command[0] == STATUS) {
        return (uint8_t)((chip.work != 0) | (chip.may_write ? 2 : 0));
    }
    return 0xFF;
}

static void chip_starts(uint64_t ns)
{
    if (!chip.may_write) {
        machine_complain("the flash chip is not enabled for a change", address_in(chip.command));
        return;
    }
    chip.cut = flash_is_cut();
    chip.work = chip.command[0];
    memcpy(chip.order, chip.command, sizeof chip.order);
    chip.order_bytes = chip.count;
    chip.done_ns = machine_ns() + (chip.cut ? ns / 2 : ns);
}

/* It is not selected any more: only now does it do what changes something. */
static void chip_end(void)
{
    uint8_t what = chip.command[0];

    if (chip.work != 0 && what != STATUS) {
        machine_complain("a command while the flash chip is busy", what);
    } else if (what == WRITE_ENABLE && chip.count == 1) {
        chip.may_write = true;
    } else if (what == ERASE && chip.count == 4) {
        chip_starts(ERASE_NS);
    } else if (what == PROGRAM && chip.count > 4 && chip.count <= sizeof chip.command) {
        chip_starts(PROGRAM_NS);
    } else if (what != STATUS) {
        machine_complain("a command that the flash chip does not know", what);
    }
    chip.count = 0;
}

static uint8_t *chip_memory(uint32_t place, uint32_t bytes)
{
    uint8_t *memory = core_memory(machine_flash_base() + place, bytes);

    if (memory == NULL || place / SECTOR >= SECTORS_MOST) {
        machine_complain("the flash chip has no such place", place);
        return NULL;
    }
    stale[place / SECTOR] = true;
    return memory;
}

/* Half done where the power fails: of each byte some bits are erased, and some are not. */
static void erase(void)
{
    uint8_t *sector = chip_memory(address_in(chip.order) & ~(SECTOR - 1), SECTOR);

    for (unsigned i = 0; sector != NULL && i < SECTOR; i++) {
        sector[i] |= chip.cut ? 0x5A : 0xFF;
    }
}

/* Makes zeros of ones only, and begins anew in the same page behind its end. */
static void program(void)
{
    uint32_t place = address_in(chip.order);
    uint8_t *page = chip_memory(place & ~(PAGE - 1), PAGE);

    for (unsigned i = 4; page != NULL && i < chip.order_bytes; i++) {
        uint8_t *byte = &page[(place + i - 4) % PAGE];

        if ((*byte & chip.order[i]) != chip.order[i]) {
            machine_complain("flash is written that is not erased", place + i - 4);
        }
        *byte &= (uint8_t)(chip.order[i] | (chip.cut ? 0x3C : 0));
    }
}

static void chip_done(void)
{
    (chip.work == ERASE ? erase : program)();
    chip.work = 0;
    chip.may_write = false;
    if (chip.cut) {
        machine_ask_reset();
    }
}

/* The ROM has selected the chip, and has emptied the cache. */
static void reset(struct device *device)
{
    struct ssi *ssi = device->state;

    if (chip.work != 0) {
        machine_complain("the part starts while its flash chip is busy", 0);
    }
    chip.count = 0;
    ssi->registers[SER / 4] = 1;
    memset(stale, 0, sizeof stale);
}

static bool is_on(const struct ssi *ssi)
{
    return (ssi->registers[SSIENR / 4] & 1) != 0;
}

static unsigned frame_bits(const struct ssi *ssi)
{
    return (ssi->registers[CTRLR0 / 4] >> 16 & 31) + 1;
}

/* Highest bit first. */
static uint32_t exchange(const struct ssi *ssi, uint32_t frame)
{
    uint32_t answer = 0;

    for (unsigned left = frame_bits(ssi); left >= 8; left -= 8) {
        answer = answer << 8 | chip_byte((uint8_t)(frame >> (left - 8)));
    }
    return answer;
}

static void shift_next(struct ssi *ssi)
{
    ssi->shifts = ssi->out.count != 0;
    if (ssi->shifts) {
        ssi->shifted = pull(&ssi->out);
        ssi->end_at = machine_cycle() + (uint64_t)frame_bits(ssi) * ssi->registers[BAUDR / 4];
    }
}

static void send(struct device *device, uint32_t frame)
{
    struct ssi *ssi = device->state;
    bool plain = (ssi->registers[CTRLR0 / 4] & ~(31u << 16)) == 0 && frame_bits(ssi) % 8 == 0;

    if (!is_on(ssi) || !plain || ssi->registers[SER / 4] != 1 || ssi->registers[BAUDR / 4] < 2) {
        machine_complain("a frame that the flash's interface cannot send", device->base + DR0);
        return;
    }
    if (!core_is_masked()) {
        machine_complain("a handler may run while the flash cannot be read", device->base + DR0);
    }
    push(&ssi->out, frame);
    if (!ssi->shifts) {
        shift_next(ssi);
    }
}

/* Off, it forgets what is in its FIFOs. */
static void enable(struct device *device, uint32_t value)
{
    struct ssi *ssi = device->state;

    if (ssi->shifts) {
        machine_complain("the flash's interface is switched off within a command", device->base);
    }
    ssi->out.count = ssi->in.count = 0;
    ssi->registers[SSIENR / 4] = value;
}

static void write(struct device *device, uint32_t offset, uint32_t value)
{
    struct ssi *ssi = device->state;

    if (offset == DR0) {
        send(device, value);
    } else if (offset == SSIENR) {
        enable(device, value);
    } else if (is_on(ssi)) {
        machine_complain("the flash's interface is set up while it is on", device->base + offset);
    } else {
        ssi->registers[offset % REGISTERS_BYTES / 4] = value;
    }
}

static uint32_t read(struct device *device, uint32_t offset)
{
    struct ssi *ssi = device->state;

    machine_read_moving();
    if (offset == DR0) {
        return pull(&ssi->in);
    }
    if (offset == SR) {
        return (ssi->shifts ? BUSY : 0) | (ssi->out.count < FIFO ? TFNF : 0) |
               (ssi->out.count == 0 ? TFE : 0) | (ssi->in.count != 0 ? RFNE : 0);
    }
    return ssi->registers[offset % REGISTERS_BYTES / 4];
}

static uint64_t due(const struct device *device)
{
    const struct ssi *ssi = device->state;
    uint64_t done = chip.work != 0 ? machine_cycle_of(chip.done_ns) : NEVER;

    return ssi->shifts && ssi->end_at < done ? ssi->end_at : done;
}

static void step(struct device *device)
{
    struct ssi *ssi = device->state;

    if (ssi->shifts && ssi->end_at <= machine_cycle()) {
        push(&ssi->in, exchange(ssi, ssi->shifted));
        shift_next(ssi);
        if (!ssi->shifts) {
            chip_end();
        }
    }
    if (chip.work != 0 && machine_ns() >= chip.done_ns) {
        chip_done();
    }
}

static void reads(struct device *device, uint32_t address)
{
    const struct ssi *ssi = device->state;
    uint32_t place = address & ADDRESS_MASK;
    bool cached = address - place == machine_flash_base();

    if (!is_on(ssi) || ssi->registers[CTRLR0 / 4] != 0x001F0300 || ssi->registers[CTRLR1 / 4] != 0 ||
        ssi->registers[SPI_CTRLR0 / 4] != 0x03000218 || ssi->registers[BAUDR / 4] < 2 ||
        chip.work != 0) {
        machine_complain("flash is read while it cannot be", address);
    }
    if (cached && place / SECTOR < SECTORS_MOST && stale[place / SECTOR]) {
        machine_complain("the cache may hold what was in the flash before", address);
    }
}

const struct model rp_ssi_model = {.kind = "rp_ssi", .state_bytes = sizeof(struct ssi), .reset = reset,
                                   .read = read, .write = write, .due = due, .step = step,
                                   .reads = reads};
