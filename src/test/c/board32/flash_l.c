/*
 * Flash and data EEPROM of STM32L0: RM0377, section 3. Stores to flash itself are not modelled, as the
 * port keeps settings in EEPROM, whose bytes can be written one by one while PELOCK is open.
 */
#include "flash.h"
#include "models.h"

enum { ACR = 0x00, PECR = 0x04, PEKEYR = 0x0C, SR = 0x18 };
enum { PELOCK = 1u << 0, PRGLOCK = 1u << 1, OPTLOCK = 1u << 2, BSY = 1u << 0, EOP = 1u << 1,
       ENDHV = 1u << 2, READY = 1u << 3, WRPERR = 1u << 8 };
#define KEY1 0x89ABCDEFu
#define KEY2 0x02030405u

/* Data sheet of STM32L011, "Flash memory and data EEPROM characteristics": erased, then written. */
#define WRITE_NS 6500000

struct flash {
    uint32_t acr, pecr, sr;
    bool half_open, closed_for_good;
    uint64_t done_at;
};

static void reset(struct device *device)
{
    struct flash *flash = device->state;

    flash->pecr = PELOCK | PRGLOCK | OPTLOCK;
    flash->sr = ENDHV | READY;
}

/* A wrong key locks PECR until the next reset: RM0377, 3.3.4. */
static void take_key(struct device *device, uint32_t key)
{
    struct flash *flash = device->state;

    if (key == KEY2 && flash->half_open && !flash->closed_for_good) {
        flash->pecr &= ~(uint32_t)PELOCK;
    } else if (key != KEY1 || flash->half_open) {
        flash->closed_for_good = true;
        machine_complain("a wrong key for PECR", device->base + PEKEYR);
    }
    flash->half_open = key == KEY1;
}

static void write(struct device *device, uint32_t offset, uint32_t value)
{
    struct flash *flash = device->state;

    if (offset == ACR) {
        flash->acr = value;
    } else if (offset == PEKEYR) {
        take_key(device, value);
    } else if (offset == SR) {
        flash->sr &= ~(value & (EOP | WRPERR));
    } else if (offset == PECR && (flash->pecr & PELOCK) != 0) {
        machine_complain("PECR is locked", device->base + PECR);
    } else if (offset == PECR) {
        flash->pecr = value | (flash->pecr & (PRGLOCK | OPTLOCK));
    }
}

static uint32_t read(struct device *device, uint32_t offset)
{
    const struct flash *flash = device->state;

    return offset == ACR ? flash->acr : offset == PECR ? flash->pecr : offset == SR ? flash->sr : 0;
}

static bool takes(struct device *device, uint32_t address, unsigned bytes, const uint8_t *old)
{
    struct flash *flash = device->state;
    bool good = address - machine_eeprom_base() < machine_eeprom_bytes() &&
                address % bytes == 0 && (flash->pecr & PELOCK) == 0 && (flash->sr & BSY) == 0;

    (void)old;
    if (good) {
        flash->sr = (flash->sr | BSY) & ~(uint32_t)(ENDHV | READY);
        flash->done_at = machine_cycle() + machine_cycles_in(WRITE_NS);
    } else {
        flash->sr |= WRPERR;
    }
    return good;
}

static uint64_t due(const struct device *device)
{
    const struct flash *flash = device->state;

    return (flash->sr & BSY) != 0 ? flash->done_at : NEVER;
}

static void step(struct device *device)
{
    struct flash *flash = device->state;

    flash->sr = (flash->sr & ~(uint32_t)BSY) | EOP | ENDHV | READY;
}

const struct model flash_l_model = {
    .kind = "flash_l", .state_bytes = sizeof(struct flash), .reset = reset, .read = read,
    .write = write, .due = due, .step = step, .takes = takes};
