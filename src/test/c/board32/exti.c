/*
 * Events of lines that are inside the chip: RM0377 (STM32L0), chapter "Extended interrupt and event
 * controller"; RM0444 (STM32G0) and RM0490 (STM32C0), where the lines of the RTC are direct and have no choice of an edge;
 * CH32V003 reference manual, 6.4. No interrupts. `events`, `rising` and `falling` say where the masks are, `direct`
 * that no edge is asked for.
 */
#include "exti.h"

#include "models.h"

#define WORDS 0x40

struct exti {
    uint32_t words[WORDS];
};

static uint32_t read(struct device *device, uint32_t offset)
{
    return ((struct exti *)device->state)->words[offset / 4 % WORDS];
}

static void write(struct device *device, uint32_t offset, uint32_t value)
{
    ((struct exti *)device->state)->words[offset / 4 % WORDS] = value;
}

/* Up and down again: either edge will do. */
void exti_pulse(unsigned line)
{
    struct device *device = machine_device("exti");
    bool edge = device_option(device, "direct", 0) != 0;

    edge = edge || ((read(device, 0x08) | read(device, 0x0C)) >> line & 1) != 0;
    if (edge && (read(device, device_option(device, "events", 0x04)) >> line & 1) != 0) {
        machine_event();
    }
}

const struct model exti_model = {
    .kind = "exti", .state_bytes = sizeof(struct exti), .read = read, .write = write};
