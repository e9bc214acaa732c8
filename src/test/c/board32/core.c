#include "core.h"

#include <elf.h>
#include <inttypes.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "bus_checker.h"
#include "flash.h"
#include "machine.h"
#include "waiting.h"

#define PAGE 0x1000u
#define FLASH_MOST 0x100000u

static const struct instruction_set *const sets[] = {&cortex_m0, &cortex_m0plus, &cortex_m3,
                                                     &rv32ec,    &rv32imac,      &bumblebee};
static const struct instruction_set *set;
static uc_engine *uc;
static uint8_t flash[FLASH_MOST], eeprom[PAGE], rom[PAGE], *ram;
static uint32_t flash_size, ram_size, entry;

static uint32_t stack_top, stack_lowest, last_address, last_size, last_op, next_pc;
/* The end of the run, in cycles at the clock as it is, and in nanoseconds. */
static uint64_t horizon, horizon_ns;
static bool asleep, for_event, deep, was_busy, in_handler, crashed;
static enum { GO_ON, PAUSE, INTERRUPT, WAIT, OWN } stopped_for;
static unsigned idle_naps, deep_naps;

uint32_t core_register(uc_engine *engine, int which)
{
    uint32_t value = 0;

    uc_reg_read(engine, which, &value);
    return value;
}

void core_set_register(uc_engine *engine, int which, uint32_t value)
{
    uc_reg_write(engine, which, &value);
}

uint8_t *core_memory(uint32_t address, uint32_t bytes)
{
    if (address - machine_flash_base() <= flash_size - bytes) {
        return flash + (address - machine_flash_base());
    }
    if (address <= flash_size - bytes && machine_boots_from_alias()) {
        return flash + address;
    }
    if (machine_flash_twin() != 0 && address - machine_flash_twin() <= flash_size - bytes) {
        return flash + (address - machine_flash_twin());
    }
    if (address - machine_ram_base() <= ram_size - bytes) {
        return ram + (address - machine_ram_base());
    }
    if (machine_eeprom_bytes() != 0 &&
        address - machine_eeprom_base() <= machine_eeprom_bytes() - bytes) {
        return eeprom + (address - machine_eeprom_base());
    }
    if (machine_rom() != 0 && address / PAGE == machine_rom() / PAGE) {
        return rom + address % PAGE;
    }
    return NULL;
}

uint32_t core_ram_bytes(void)
{
    return ram_size;
}

uint32_t core_stack_pointer(void)
{
    return core_register(uc, set->sp);
}

bool core_is_masked(void)
{
    return in_handler || set->masked(uc);
}

unsigned core_stack(void)
{
    return stack_top - stack_lowest;
}

void core_end(void)
{
    set->end(uc);
}

unsigned core_naps(bool of_deep)
{
    return of_deep ? deep_naps : idle_naps;
}

static void stop(int why)
{
    stopped_for = why;
    uc_emu_stop(uc);
}

/* The first stack pointer is the top; RAM begins below it. */
static void watch_stack(void)
{
    uint32_t sp = core_register(uc, set->sp);

    if (sp - machine_ram_base() > ram_size) {
        return;
    }
    if (stack_top == 0) {
        stack_top = stack_lowest = sp;
    }
    stack_lowest = sp < stack_lowest ? sp : stack_lowest;
}

static bool interrupt_comes(void)
{
    return !in_handler && set->pending() >= 0 && !set->masked(uc);
}

static bool must_pause(void)
{
    return machine_cycle() >= horizon || checker_in_transaction() != was_busy ||
           machine_reset_asked();
}

static void pass(uint32_t address)
{
    machine_pass(set->cycles(last_op, address != last_address + last_size));
    if (set->may_move_stack(last_op)) {
        watch_stack();
    }
}

/* Lets all have their turn for whom it is time; true where the core may be interrupted by it. */
static bool turn(void)
{
    bool stepped = machine_cycle() >= machine_due();

    if (stepped) {
        machine_step();
    }
    if (machine_changed() || !board_is_calm()) {
        board_step();
        return true;
    }
    return stepped;
}

/* The first two registers are the arguments; the ROM itself has a return only. */
static void call_rom(void)
{
    struct device *device = machine_device("flash");

    waiting_effect();
    device->model->call(device, core_register(uc, set->registers[0]), core_register(uc, set->registers[1]));
}

static void map_rom(void)
{
    static const uint8_t back[] = {0x70, 0x47}; /* BX LR */

    for (unsigned i = 0; i < PAGE; i += sizeof back) {
        memcpy(rom + i, back, sizeof back);
    }
    uc_mem_map_ptr(uc, machine_rom() & ~(PAGE - 1), PAGE, UC_PROT_READ | UC_PROT_EXEC, rom);
}

/* Outside RAM, by an instruction or of one. */
static void flash_read(uint32_t address)
{
    static struct device *device;

    device = device == NULL ? machine_device("flash") : device;
    if (address - machine_ram_base() >= ram_size && device->model->reads != NULL) {
        device->model->reads(device, address);
    }
}

static void before_instruction(uc_engine *engine, uint64_t at, uint32_t size, void *unused)
{
    uint32_t address = (uint32_t)at, op = 0;
    const uint8_t *code = core_memory(address, 4);
    static bool look;

    (void)engine;
    (void)unused;
    if (code == NULL) {
        fprintf(stderr, "code outside memory at 0x%" PRIx32 "\n", address);
        crashed = true;
        stop(PAUSE);
        return;
    }
    flash_read(address);
    memcpy(&op, code, 4);
    if (last_size != 0) {
        pass(address);
    }
    last_address = address;
    last_size = 0;
    flash_mend();
    if (machine_rom() != 0 && address == machine_rom()) {
        call_rom();
    }
    look = turn() || look;
    if (address < next_pc) {
        waiting_turn(uc, set, address, horizon);
    }
    next_pc = address;
    if (look && interrupt_comes()) {
        look = set->pending() >= 0;
        stop(INTERRUPT);
        return;
    }
    look = set->pending() >= 0;
    if (must_pause()) {
        stop(PAUSE);
        return;
    }
    last_size = size;
    last_op = op;
    if (set->is_wait(op)) {
        stop(WAIT);
    } else if (set->is_own(op)) {
        stop(OWN);
    }
}

static void on_interrupt(uc_engine *engine, uint32_t number, void *unused)
{
    (void)engine;
    (void)number;
    (void)unused;
    uc_emu_stop(uc);
}

static uint64_t device_read(uc_engine *engine, uint64_t offset, unsigned size, void *page)
{
    uint32_t address = (uint32_t)((uintptr_t)page + offset);
    uint32_t value = machine_read(address, size);

    (void)engine;
    return size == 4 ? value : value & ((1u << 8 * size) - 1);
}

static void device_write(uc_engine *engine, uint64_t offset, unsigned size, uint64_t value,
                         void *page)
{
    uint32_t address = (uint32_t)((uintptr_t)page + offset);

    (void)engine;
    waiting_effect();
    machine_write(address, (uint32_t)value, size);
}

static void memory_write(uc_engine *engine, uc_mem_type type, uint64_t address, int size, int64_t value,
                         void *unused)
{
    const uint8_t *memory = core_memory((uint32_t)address, (uint32_t)size);
    bool in_ram = address - machine_ram_base() < ram_size;

    (void)engine;
    (void)type;
    (void)unused;
    if (memory == NULL) {
        return;
    }
    if (memcmp(memory, &value, (size_t)size) != 0) {
        waiting_effect();
    }
    if (!in_ram) {
        flash_written((uint32_t)address, (uint32_t)value, (unsigned)size);
    }
}

static void memory_read(uc_engine *engine, uc_mem_type type, uint64_t address, int size, int64_t value,
                        void *unused)
{
    (void)engine;
    (void)type;
    (void)size;
    (void)value;
    (void)unused;
    flash_read((uint32_t)address);
}

static void watch_flash(uint32_t base)
{
    uc_hook hook;

    uc_hook_add(uc, &hook, UC_HOOK_MEM_READ, memory_read, NULL, base, base + flash_size - 1);
}

static bool nothing_there(uc_engine *engine, uc_mem_type type, uint64_t address, int size,
                          int64_t value, void *unused)
{
    (void)engine;
    (void)type;
    (void)size;
    (void)value;
    (void)unused;
    machine_complain("access where there is nothing", (uint32_t)address);
    return false;
}

static void map_devices(void)
{
    struct device *device;

    for (unsigned n = 0; (device = machine_nth(n)) != NULL; n++) {
        for (uint32_t page = device->base & ~(PAGE - 1); page < device->base + device->bytes;
             page += PAGE) {
            /* Fails where an earlier device lies in the same page, which is as it should be. */
            (void)uc_mmio_map(uc, page, PAGE, device_read, (void *)(uintptr_t)page, device_write,
                              (void *)(uintptr_t)page);
        }
    }
}

static void load(const char *path)
{
    FILE *file = fopen(path, "rb");
    Elf32_Ehdr head;
    Elf32_Phdr part;

    if (file == NULL || fread(&head, sizeof head, 1, file) != 1) {
        perror(path);
        exit(2);
    }
    entry = head.e_entry;
    memset(flash, 0xFF, sizeof flash);
    for (unsigned i = 0; i < head.e_phnum; i++) {
        uint32_t place;

        fseek(file, (long)(head.e_phoff + i * sizeof part), SEEK_SET);
        if (fread(&part, sizeof part, 1, file) != 1 || part.p_type != PT_LOAD || part.p_filesz == 0) {
            continue;
        }
        place = part.p_paddr >= machine_flash_base() ? part.p_paddr - machine_flash_base() : part.p_paddr;
        fseek(file, (long)part.p_offset, SEEK_SET);
        if (place + part.p_filesz > flash_size ||
            fread(flash + place, part.p_filesz, 1, file) != 1) {
            fprintf(stderr, "%s: does not fit into flash at 0x%" PRIx32 "\n", path, part.p_paddr);
            exit(2);
        }
    }
    fclose(file);
}

static uint32_t pages(uint32_t bytes)
{
    return (bytes + PAGE - 1) & ~(PAGE - 1);
}

void core_begin(const char *elf, uint32_t flash_bytes, uint32_t ram_bytes)
{
    uc_hook hook;

    for (unsigned i = 0; i < sizeof sets / sizeof sets[0]; i++) {
        if (strcmp(sets[i]->core, machine_core()) == 0) {
            set = sets[i];
        }
    }
    flash_size = flash_bytes;
    ram_size = ram_bytes;
    ram = calloc(1, pages(ram_bytes));
    if (set == NULL || uc_open(set->arch, set->mode, &uc) != UC_ERR_OK) {
        fprintf(stderr, "no core %s\n", machine_core());
        exit(2);
    }
    uc_ctl_set_cpu_model(uc, set->model);
    load(elf);
    uc_mem_map_ptr(uc, machine_flash_base(), pages(flash_bytes), UC_PROT_ALL, flash);
    if (machine_boots_from_alias()) {
        uc_mem_map_ptr(uc, 0, pages(flash_bytes), UC_PROT_ALL, flash);
    }
    uc_mem_map_ptr(uc, machine_ram_base(), pages(ram_bytes), UC_PROT_ALL, ram);
    if (machine_eeprom_bytes() != 0) {
        uc_mem_map_ptr(uc, machine_eeprom_base(), PAGE, UC_PROT_READ | UC_PROT_WRITE, eeprom);
    }
    if (machine_rom() != 0) {
        map_rom();
    }
    if (machine_flash_twin() != 0) {
        uc_mem_map_ptr(uc, machine_flash_twin(), pages(flash_bytes), UC_PROT_READ, flash);
    }
    map_devices();
    uc_hook_add(uc, &hook, UC_HOOK_CODE, before_instruction, NULL, 1, 0);
    uc_hook_add(uc, &hook, UC_HOOK_INTR, on_interrupt, NULL, 1, 0);
    uc_hook_add(uc, &hook, UC_HOOK_MEM_WRITE, memory_write, NULL, 1, 0);
    if (machine_device("flash")->model->reads != NULL) {
        watch_flash(machine_flash_base());
        watch_flash(machine_flash_twin());
    }
    uc_hook_add(uc, &hook, UC_HOOK_MEM_UNMAPPED, nothing_there, NULL, 1, 0);
    core_reset();
}

void core_reset(void)
{
    set->reset(uc);
    asleep = in_handler = false;
    last_size = 0;
    next_pc = core_register(uc, set->pc);
    watch_stack();
}

static void pass_asleep(uint64_t cycles)
{
    if (deep) {
        machine_pass_stopped(cycles);
        horizon = machine_cycle_of(horizon_ns);
    } else {
        machine_pass(cycles);
    }
}

/*
 * Sleeps on to what comes next; an enabled interrupt wakes it, whether it is masked or not, or an
 * event does, or an interrupt that comes.
 */
static void sleep_on(void)
{
    uint64_t next = deep ? machine_due_stopped() : machine_due();
    uint64_t due = next < horizon ? next : horizon;

    /* While a line moves by itself the board looks often. */
    if (!board_is_calm() && due > machine_cycle() + machine_cycles_in(100)) {
        due = machine_cycle() + machine_cycles_in(100);
    }
    if (due > machine_cycle()) {
        pass_asleep(due - machine_cycle());
    }
    (void)turn();
    asleep = for_event ? !machine_take_event() && !interrupt_comes() : set->pending() < 0;
}

static void fall_asleep(void)
{
    for_event = set->for_event(last_op);
    if (for_event && machine_take_event()) {
        return;
    }
    asleep = true;
    deep = set->deep() || machine_stops_asleep();
    if (deep) {
        ++deep_naps;
        machine_stop();
        horizon = machine_cycle_of(horizon_ns);
    } else {
        ++idle_naps;
    }
}

static void skip_instruction(void)
{
    core_set_register(uc, set->pc, last_address + last_size);
}

static void take_interrupt(void)
{
    in_handler = true;
    /* Armv6-M Architecture Reference Manual, B1.5.18: so does the return. */
    machine_event();
    waiting_effect();
    set->enter(uc, set->pending());
    watch_stack();
    last_size = 0;
}

static bool crash(uc_err error)
{
    printf("crashed %" PRIu64 "\n", machine_ns() / 1000);
    fprintf(stderr, "%s at 0x%" PRIx32 ", after 0x%" PRIx32 "\n", uc_strerror(error),
            core_register(uc, set->pc), last_address);
    return false;
}

static bool emulate(void)
{
    uc_err error;

    stopped_for = GO_ON;
    error = uc_emu_start(uc, set->start_at(core_register(uc, set->pc)), 0xFFFFFFFFu, 0, 0);
    if (stopped_for == INTERRUPT) {
        take_interrupt();
    } else if (stopped_for == WAIT) {
        fall_asleep();
        skip_instruction();
    } else if (stopped_for == OWN) {
        in_handler = !set->own(uc, last_op) && in_handler;
    } else if (stopped_for == GO_ON && set->leave(uc)) {
        in_handler = false;
        machine_pass(last_size == 0 ? 0 : set->cycles(last_op, true));
        last_size = 0;
    } else if (stopped_for != PAUSE || crashed) {
        return crash(error);
    }
    return true;
}

bool core_run(uint64_t until)
{
    horizon_ns = until;
    horizon = machine_cycle_of(until);
    was_busy = checker_in_transaction();
    do {
        if (asleep) {
            sleep_on();
        } else if (interrupt_comes()) {
            take_interrupt();
        } else if (!emulate()) {
            return false;
        }
    } while (!must_pause());
    return true;
}
