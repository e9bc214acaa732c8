/*
 * A board around a simulated 32-bit part, with the same world as the AVR's: a two-wire sensor with
 * pull-ups, a knob, a button, a lamp, a relay, a sounder and a serial line.
 *
 *   board32 ELF FAMILIES PART FLASH RAM sda=A10 scl=A9 lamp=A5 knob=A0 address=0x48 valid=3450 SCRIPT
 *
 * FAMILIES says which models make the chip (families.txt); FLASH and RAM are bytes of the part.
 * Further: relay=!A2 (switched by a low level) sounder=A6 mute=A3 transmit=A2 gap=50 (milliseconds
 * without traffic that end a reading). Its last argument is a script; see script.h. Addresses and
 * registers are those of the manuals that each model names; cycles are estimates, so the times of a
 * bit-banged bus are indicative, those of a controller are its timing registers'.
 */
#include <inttypes.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "bus_checker.h"
#include "core.h"
#include "flash.h"
#include "lines.h"
#include "machine.h"
#include "models.h"
#include "outputs.h"
#include "part.h"
#include "script.h"
#include "sensor.h"

struct pin {
    struct device *port;
    unsigned bit;
    char name[8];
    bool active_low;
};

static struct pin sda, scl, lamp, relay, sounder, mute, knob, transmit;
static uint32_t flash_bytes;
static bool pressed;

static struct pin pin_of(const char *text)
{
    struct pin pin = {.active_low = text[0] == '!'};
    char port[8] = {0};
    size_t letters;

    text += pin.active_low ? 1 : 0;
    snprintf(pin.name, sizeof pin.name, "%s", text);
    letters = strcspn(text, "0123456789") % sizeof port;
    letters += letters == 0; /* A port may be a digit. */
    memcpy(port, text, letters);
    pin.bit = (unsigned)strtoul(text + letters, NULL, 10);
    pin.port = machine_device(port);
    if (pin.port == NULL || pin.port->model->pin == NULL) {
        fprintf(stderr, "no pin %s\n", text);
        exit(2);
    }
    return pin;
}

/* Whether the part drives the pin, to what, and whether it can drive it high. */
static bool driven(const struct pin *pin, bool *high, bool *open_drain)
{
    struct pin_state state = pin->port->model->pin(pin->port, pin->bit);

    *high = state.latch;
    *open_drain = state.open_drain;
    if (state.use == PIN_FUNCTION) {
        return routes_drive(pin->name, state.function, high);
    }
    return state.use == PIN_OUTPUT;
}

static bool is_on(const struct pin *pin)
{
    bool high, open_drain;

    return pin->port != NULL && driven(pin, &high, &open_drain) && high != pin->active_low;
}

/* Pulls the line low, as an open drain does. */
static bool pulls(const struct pin *pin, const char *line)
{
    bool high, open_drain;

    if (!driven(pin, &high, &open_drain)) {
        return false;
    }
    if (high && !open_drain) {
        lines_driven_high(machine_ns(), line);
    }
    return !high;
}

bool board_is_calm(void)
{
    return lines_calm();
}

static void feed(const struct pin *pin, bool high)
{
    if (pin->port != NULL) {
        pin->port->model->feed(pin->port, pin->bit, high);
    }
}

void board_step(void)
{
    bool pulls_sda = pulls(&sda, "SDA"), pulls_scl = pulls(&scl, "SCL");

    if (lines_change(pulls_sda, pulls_scl) || !lines_calm()) {
        lines_pull(machine_ns(), pulls_sda, pulls_scl);
    }
    feed(&sda, lines_sda());
    feed(&scl, lines_scl());
    feed(&mute, !pressed);
    outputs_step(is_on(&lamp), is_on(&relay), is_on(&sounder), machine_ns());
}

uint64_t part_now(void)
{
    return machine_ns();
}

/* In a transaction the checker looks every millisecond for what does not happen. */
bool part_step(uint64_t until)
{
    uint64_t soon = machine_ns() + 1000000;
    bool good = core_run(checker_in_transaction() && soon < until ? soon : until);

    board_step();
    checker_wait(machine_ns());
    if (machine_reset_asked()) {
        printf("reset %" PRIu64 "\n", machine_ns() / 1000);
        machine_reset();
        core_reset();
    }
    return good;
}

void part_knob(unsigned mv)
{
    machine_knob_mv = mv;
}

void part_press(bool down)
{
    pressed = down;
    board_step();
}

bool part_keep(uint8_t *bytes, unsigned count)
{
    return flash_fill(bytes, count, flash_bytes);
}

bool part_cut(unsigned n)
{
    flash_cut(n);
    return true;
}

static uint64_t wire(int count, char **options)
{
    static const struct {
        const char *key;
        struct pin *pin;
    } pins[] = {{"sda=", &sda},         {"scl=", &scl},   {"lamp=", &lamp}, {"relay=", &relay},
                {"sounder=", &sounder}, {"mute=", &mute}, {"knob=", &knob}, {"transmit=", &transmit}};
    unsigned address = 0, valid = 0;
    uint64_t gap_ms = 1;

    for (int i = 0; i < count; i++) {
        char *value;

        for (unsigned n = 0; n < sizeof pins / sizeof pins[0]; n++) {
            if ((value = script_after(pins[n].key, options[i])) != NULL) {
                *pins[n].pin = pin_of(value);
            }
        }
        if ((value = script_after("address=", options[i])) != NULL) {
            address = (unsigned)strtoul(value, NULL, 0);
        } else if ((value = script_after("valid=", options[i])) != NULL) {
            valid = (unsigned)strtoul(value, NULL, 0);
        } else if ((value = script_after("gap=", options[i])) != NULL) {
            gap_ms = strtoul(value, NULL, 0);
        }
    }
    machine_knob_pin = knob.name;
    sensor_begin((uint8_t)address, valid);
    return gap_ms * 1000000;
}

static void print_end(void)
{
    core_end();
    outputs_end();
    checker_print();
    printf("naps %u %u\n", core_naps(false), core_naps(true));
    printf("stopped %" PRIu64 "\n", machine_stopped_ns() / 1000);
    printf("stack %u\n", core_stack());
    printf("ended %" PRIu64 "\n", machine_ns() / 1000);
}

int main(int count, char **arguments)
{
    uint64_t gap_ns;

    if (count < 7) {
        fprintf(stderr, "wants: ELF FAMILIES PART FLASH RAM key=value ... SCRIPT\n");
        return 2;
    }
    machine_begin(arguments[2], arguments[3]);
    flash_bytes = (uint32_t)strtoul(arguments[4], NULL, 0);
    gap_ns = wire(count - 7, arguments + 6);
    core_begin(arguments[1], flash_bytes, (uint32_t)strtoul(arguments[5], NULL, 0));
    script_play(arguments[count - 1], gap_ns);
    print_end();
    return 0;
}
