#include "machine.h"

#include <inttypes.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "bus_checker.h"
#include "models.h"

#define DEVICES_MOST 48
#define COPY_BYTES 0x1000u
#define LINE_MOST 400

unsigned machine_knob_mv;
const char *machine_knob_pin = "";

static struct device devices[DEVICES_MOST];
static unsigned device_count;
static char core_name[32];
static uint32_t flash_base, ram_base, eeprom_base, eeprom_bytes;
static bool from_alias;
static uint32_t boot_stage, flash_twin, rom;
static bool sums_vectors;

/* Time runs from an anchor, which moves when the clock changes. */
static uint64_t cycle, anchor_cycle, anchor_ns, due_at;
static uint32_t hz = 1000000;
static bool changed, moves, reset_wanted, event;
static uint64_t stopped_ns;
/* What the flash was told of wait states has been read back. */
static bool waits_read;

static const struct model *model_of(const char *kind)
{
    for (unsigned i = 0; i < models_count; i++) {
        if (strcmp(models[i]->kind, kind) == 0) {
            return models[i];
        }
    }
    fprintf(stderr, "no model of %s\n", kind);
    exit(2);
}

uint32_t device_option(const struct device *device, const char *key, uint32_t otherwise)
{
    size_t length = strlen(key);

    for (const char *at = device->options; (at = strstr(at, key)) != NULL; at += length) {
        if (at[-1] == ' ' && at[length] == '=') {
            return (uint32_t)strtoul(at + length + 1, NULL, 0);
        }
    }
    return otherwise;
}

const char *device_item(const struct device *device, const char *key, unsigned n)
{
    const char *at = strstr(device->options, key);

    at = at == NULL ? NULL : strchr(at, '=') + 1;
    for (; at != NULL && n > 0; n--) {
        size_t length = strcspn(at, ", ");

        at = at[length] == ',' ? at + length + 1 : NULL;
    }
    return at;
}

static void add_device(const char *kind, const char *name, uint32_t base, const char *options)
{
    static const char *const numbers[INTERRUPTS_MOST] = {"irq", "irq2", "irq3", "irq4"};
    struct device *device = &devices[device_count++];
    const char *clock;

    device->model = model_of(kind);
    device->name = strdup(name);
    device->options = strdup(options);
    device->base = base;
    device->bytes = device_option(device, "bytes", 0x400);
    for (unsigned i = 0; i < INTERRUPTS_MOST; i++) {
        device->interrupts[i] = (int)device_option(device, numbers[i], (uint32_t)-1);
    }
    clock = strstr(device->options, " clock=");
    if (clock != NULL) {
        device->clock_register = (uint32_t)strtoul(clock + 7, NULL, 0);
        device->clock_mask = 1u << strtoul(strchr(clock, '.') + 1, NULL, 10);
    }
    device->atomic = device_option(device, "atomic", 0) != 0;
    device->state = malloc(device->model->state_bytes);
}

static uint32_t word_after(const char *key, const char *line)
{
    const char *at = strstr(line, key);

    return at == NULL ? 0 : (uint32_t)strtoul(at + strlen(key), NULL, 0);
}

static void take_line(char *line)
{
    char kind[32], name[32];
    unsigned first, second;
    int end = 0;

    if (sscanf(line, " core %31s", core_name) == 1) {
        return;
    }
    if (sscanf(line, " flash %i%n", (int *)&first, &end) == 1) {
        flash_base = first;
        from_alias = strstr(line + end, "alias") != NULL;
        sums_vectors = strstr(line + end, "sum") != NULL;
        boot_stage = word_after("stage=", line);
        flash_twin = word_after("twin=", line);
    } else if (sscanf(line, " ram %i", (int *)&second) == 1) {
        ram_base = second;
    } else if (sscanf(line, " rom %i", (int *)&second) == 1) {
        rom = second;
    } else if (sscanf(line, " eeprom %i %u", (int *)&first, &second) == 2) {
        eeprom_base = first;
        eeprom_bytes = second;
    } else if (sscanf(line, " device %31s %31s %i%n", kind, name, (int *)&first, &end) == 3) {
        add_device(kind, name, first, line + end);
    } else if (strstr(line, "route") != NULL) {
        routes_add(line);
    }
}

/* How many letters of the part's name the longest of a family's prefixes has; 0 where none fits. */
static size_t fits(char *line, const char *part)
{
    size_t longest = 0, length;

    for (char *word = strtok(line, " "); word != NULL; word = strtok(NULL, " ")) {
        length = strlen(word);
        if (strncmp(part, word, length) == 0 && length > longest) {
            longest = length;
        }
    }
    return longest;
}

/* The paragraphs: where that of the part begins, or what is in it. */
static long read_families(FILE *file, const char *part, long from)
{
    char line[LINE_MOST];
    size_t longest = 0, length;
    long found = -1;

    fseek(file, from, SEEK_SET);
    while (fgets(line, sizeof line, file) != NULL) {
        bool heads = strncmp(line, "family ", 7) == 0;

        line[strcspn(line, "#\n")] = '\0';
        if (heads && from != 0) {
            break;
        }
        if (heads && (length = fits(line + 7, part)) > longest) {
            longest = length;
            found = ftell(file);
        } else if (!heads && from != 0) {
            take_line(line);
        }
    }
    return found;
}

void machine_begin(const char *families, const char *part)
{
    FILE *file = fopen(families, "r");
    long from = file == NULL ? -1 : read_families(file, part, 0);

    if (from < 0) {
        fprintf(stderr, "%s says nothing of %s\n", families, part);
        exit(2);
    }
    (void)read_families(file, part, from);
    fclose(file);
    machine_reset();
}

void machine_reset(void)
{
    reset_wanted = event = false;
    waits_read = true;
    for (unsigned i = 0; i < device_count; i++) {
        memset(devices[i].state, 0, devices[i].model->state_bytes);
    }
    for (unsigned i = 0; i < device_count; i++) {
        if (devices[i].model->reset != NULL) {
            devices[i].model->reset(&devices[i]);
        }
    }
    due_at = 0;
    changed = true;
}

const char *machine_core(void)
{
    return core_name;
}

uint32_t machine_flash_base(void)
{
    return flash_base;
}

uint32_t machine_ram_base(void)
{
    return ram_base;
}

bool machine_boots_from_alias(void)
{
    return from_alias;
}

uint32_t machine_boot_stage(void)
{
    return boot_stage;
}

uint32_t machine_flash_twin(void)
{
    return flash_twin;
}

uint32_t machine_rom(void)
{
    return rom;
}

bool machine_sums_vectors(void)
{
    return sums_vectors;
}

uint32_t machine_eeprom_base(void)
{
    return eeprom_base;
}

uint32_t machine_eeprom_bytes(void)
{
    return eeprom_bytes;
}

struct device *machine_device(const char *name)
{
    for (unsigned i = 0; i < device_count; i++) {
        if (strcmp(devices[i].name, name) == 0) {
            return &devices[i];
        }
    }
    return NULL;
}

struct device *machine_nth(unsigned n)
{
    return n < device_count ? &devices[n] : NULL;
}

bool machine_asks(int interrupt)
{
    for (unsigned i = 0; i < device_count; i++) {
        unsigned asked = devices[i].model->asks == NULL ? 0 : devices[i].model->asks(&devices[i]);

        for (unsigned n = 0; asked != 0 && n < INTERRUPTS_MOST; n++) {
            if ((asked >> n & 1) != 0 && devices[i].interrupts[n] == interrupt) {
                return true;
            }
        }
    }
    return false;
}

void machine_complain(const char *what, uint32_t address)
{
    static unsigned said;

    if (said++ < 10) {
        printf("violation %" PRIu64 " %s at 0x%08" PRIx32 "\n", machine_ns() / 1000, what, address);
    }
}

static struct device *device_at(uint32_t address)
{
    static struct device *last = devices;

    if (address - last->base < last->bytes) {
        return last;
    }
    for (unsigned i = 0; i < device_count; i++) {
        if (address - devices[i].base < devices[i].bytes) {
            last = &devices[i];
            return last;
        }
    }
    return NULL;
}

/* A peripheral without its clock reads as zero and does not take what is written. */
static struct device *clocked(uint32_t address)
{
    static struct device *rcc;
    struct device *device = device_at(address);

    rcc = rcc == NULL ? machine_device("rcc") : rcc;
    if (device == NULL) {
        machine_complain("access where the model has nothing", address);
        return NULL;
    }
    if (device->clock_mask != 0 &&
        (rcc->model->read(rcc, device->clock_register) & device->clock_mask) == 0) {
        machine_complain("access to a peripheral without its clock", address);
        return NULL;
    }
    return device;
}

/* LATENCY is at the bottom of ACR, the first register, in all of these chips. */
static bool is_latency(const struct device *device, uint32_t address)
{
    return strcmp(device->name, "flash") == 0 && address == device->base;
}

/* Most registers are words, and part of one is read as part of the word. */
uint32_t machine_read(uint32_t address, unsigned bytes)
{
    struct device *device = clocked(address);

    due_at = 0;
    if (device != NULL && is_latency(device, address)) {
        waits_read = true;
    }
    if (device != NULL && device->model->read_bytes != NULL) {
        return device->model->read_bytes(device, address - device->base, bytes);
    }
    if (device == NULL || device->model->read == NULL) {
        return 0;
    }
    return device->model->read(device, (address & ~3u) - device->base) >> 8 * (address & 3);
}

/* RP2040 data sheet, 2.1.2. */
static uint32_t combined(struct device *device, uint32_t offset, uint32_t value)
{
    uint32_t old = offset < COPY_BYTES ? 0 : device->model->read(device, offset % COPY_BYTES);

    switch (offset / COPY_BYTES) {
    case 1:
        return old ^ value;
    case 2:
        return old | value;
    case 3:
        return old & ~value;
    default:
        return value;
    }
}

void machine_write(uint32_t address, uint32_t value, unsigned bytes)
{
    struct device *device = clocked(address);
    uint32_t offset = device == NULL ? 0 : address - device->base;

    if (device != NULL && is_latency(device, address)) {
        waits_read = false;
    }
    if (device != NULL && device->model->write_bytes != NULL) {
        device->model->write_bytes(device, offset, value, bytes);
    } else if (device != NULL && device->model->write != NULL && device->atomic) {
        device->model->write(device, offset % COPY_BYTES, combined(device, offset, value));
    } else if (device != NULL && device->model->write != NULL) {
        device->model->write(device, offset & ~3u, value << 8 * (address & 3));
    }
    due_at = 0;
    changed = true;
}

uint64_t machine_cycle(void)
{
    return cycle;
}

void machine_pass(uint64_t cycles)
{
    cycle += cycles;
}

uint64_t machine_ns(void)
{
    return anchor_ns + (uint64_t)((double)(cycle - anchor_cycle) * 1e9 / hz);
}

uint64_t machine_cycle_of(uint64_t ns)
{
    return ns < anchor_ns ? cycle : anchor_cycle + (uint64_t)((double)(ns - anchor_ns) * hz / 1e9) + 1;
}

uint32_t machine_hz(void)
{
    return hz;
}

/* `wait_step` of the flash: so many Hz with each further wait state; `read_back`: see flash_g.c. */
static void check_wait_states(uint32_t new_hz)
{
    struct device *flash = machine_device("flash");
    uint32_t step = flash == NULL ? UINT32_MAX : device_option(flash, "wait_step", UINT32_MAX);

    if (new_hz > step && (flash->model->read(flash, 0) & 7) < (new_hz - 1) / step) {
        machine_complain("too few wait states of flash for the clock", flash->base);
    }
    if (new_hz > hz && !waits_read && flash != NULL && device_option(flash, "read_back", 0) != 0) {
        machine_complain("wait states of flash were not read back", flash->base);
    }
}

void machine_run_at(uint32_t new_hz)
{
    struct device *rcc = machine_device("rcc");

    if (rcc != NULL && new_hz > device_option(rcc, "most", UINT32_MAX)) {
        machine_complain("the clock is faster than the part may run", rcc->base);
    }
    check_wait_states(new_hz);
    anchor_ns = machine_ns();
    anchor_cycle = cycle;
    hz = new_hz;
    due_at = 0;
}

uint64_t machine_cycles_in(uint64_t ns)
{
    uint64_t cycles = (uint64_t)((double)ns * hz / 1e9 + 0.5);

    return cycles == 0 ? 1 : cycles;
}

static uint64_t due_of(bool stopped)
{
    uint64_t first = NEVER;

    for (unsigned i = 0; i < device_count; i++) {
        const struct model *model = devices[i].model;
        uint64_t due = model->due == NULL || (stopped && !model->goes_on) ? NEVER
                                                                          : model->due(&devices[i]);

        first = due < first ? due : first;
    }
    return first;
}

uint64_t machine_due(void)
{
    if (due_at == 0) {
        due_at = due_of(false);
    }
    return due_at;
}

void machine_stop(void)
{
    if (checker_in_transaction()) {
        machine_complain("the clock stops within a transaction on the bus", 0);
    }
    for (unsigned i = 0; i < device_count; i++) {
        if (devices[i].model->stop != NULL) {
            devices[i].model->stop(&devices[i]);
        }
    }
    due_at = 0;
}

bool machine_stops_asleep(void)
{
    bool stops = false;

    for (unsigned i = 0; i < device_count; i++) {
        const struct model *model = devices[i].model;

        if (model->needs_clock != NULL) {
            stops = true;
            if (model->needs_clock(&devices[i])) {
                return false;
            }
        }
    }
    return stops;
}

void machine_pass_stopped(uint64_t cycles)
{
    uint64_t ns = (uint64_t)((double)cycles * 1e9 / hz);

    anchor_ns += ns;
    stopped_ns += ns;
    due_at = 0;
}

uint64_t machine_due_stopped(void)
{
    return due_of(true);
}

uint64_t machine_stopped_ns(void)
{
    return stopped_ns;
}

void machine_event(void)
{
    event = true;
}

bool machine_take_event(void)
{
    bool was = event;

    event = false;
    return was;
}

void machine_step(void)
{
    for (unsigned i = 0; i < device_count; i++) {
        const struct model *model = devices[i].model;

        if (model->due != NULL && model->due(&devices[i]) <= cycle) {
            model->step(&devices[i]);
            changed = true;
        }
    }
    due_at = 0;
}

bool machine_changed(void)
{
    bool was = changed;

    changed = false;
    return was;
}

void machine_read_moving(void)
{
    moves = true;
}

bool machine_moves(void)
{
    bool did = moves;

    moves = false;
    return did;
}

void machine_ask_reset(void)
{
    reset_wanted = true;
}

bool machine_reset_asked(void)
{
    return reset_wanted;
}
