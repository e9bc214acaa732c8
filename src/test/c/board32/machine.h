/*
 * A chip made of models: each answers for the registers of one peripheral, says when it will do
 * something by itself, and whether it asks for an interrupt. Time is counted in cycles of the core's
 * clock. Which models make a chip, and where they stand, is in families.txt.
 */
#ifndef MACHINE_H
#define MACHINE_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#define NEVER UINT64_MAX

struct device;

enum pin_use { PIN_INPUT, PIN_OUTPUT, PIN_FUNCTION, PIN_ANALOG };

struct pin_state {
    enum pin_use use;
    bool open_drain, latch, pull_up;
    unsigned function;
};

/* What a model does not need stays null. */
struct model {
    const char *kind;
    size_t state_bytes;
    /* After power-up and every reset; the state is all zeros then. */
    void (*reset)(struct device *);
    uint32_t (*read)(struct device *, uint32_t offset);
    void (*write)(struct device *, uint32_t offset, uint32_t value);
    /* The same where registers are narrower than a word: so many bytes, at any offset. */
    uint32_t (*read_bytes)(struct device *, uint32_t offset, unsigned bytes);
    void (*write_bytes)(struct device *, uint32_t offset, uint32_t value, unsigned bytes);
    /* The cycle in which it will do something by itself, and what it does then. */
    uint64_t (*due)(const struct device *);
    void (*step)(struct device *);
    /* Its clock is a slow one that goes on while the core's is stopped in deep sleep. */
    bool goes_on;
    /* Whether it asks for the fast clock, where that stops as soon as nobody does. */
    bool (*needs_clock)(const struct device *);
    /* The core's clock is about to stop. */
    void (*stop)(struct device *);
    /* Bit n: asks for its n-th interrupt. */
    unsigned (*asks)(const struct device *);
    /* Of a peripheral with signals on pins: whether it drives one, and to what. */
    bool (*drives)(const struct device *, const char *signal, bool *high);
    /* Of a port of pins. */
    struct pin_state (*pin)(const struct device *, unsigned bit);
    void (*feed)(struct device *, unsigned bit, bool high);
    /* Of clock control: the clock that conversions are made by. */
    uint32_t (*converter_hz)(const struct device *);
    /* Of flash: whether a store to it, of so many bytes over these, is taken. */
    bool (*takes)(struct device *, uint32_t address, unsigned bytes, const uint8_t *old);
    /* Of flash behind a buffer: keeps what is stored to it until it is told more. */
    void (*buffers)(struct device *, uint32_t address, unsigned bytes, uint32_t value);
    /* Of flash that cannot always be read: something is read there, or run. */
    void (*reads)(struct device *, uint32_t address);
    /* Of flash that a routine in ROM writes: what the routine does with its two arguments. */
    void (*call)(struct device *, uint32_t parameters, uint32_t results);
};

#define INTERRUPTS_MOST 4

struct device {
    const struct model *model;
    const char *name;
    uint32_t base, bytes;
    int interrupts[INTERRUPTS_MOST];
    /* key=value of families.txt. */
    const char *options;
    /* Where the clock of the peripheral is switched on: an offset in `rcc`, and a bit; 0 for none. */
    uint32_t clock_register, clock_mask;
    /* Its registers are there four times: the copies flip, set and clear bits. */
    bool atomic;
    void *state;
};

void machine_begin(const char *families, const char *part);
void machine_reset(void);

/* What families.txt says of the chip: core, flash, ram; 0 where nothing. */
const char *machine_core(void);
uint32_t machine_flash_base(void);
uint32_t machine_ram_base(void);
bool machine_boots_from_alias(void);
/* Data EEPROM, and its bytes; 0 where there is none. */
uint32_t machine_eeprom_base(void);
uint32_t machine_eeprom_bytes(void);

/* Where the first 256 bytes of the flash are copied to and run; 0 where they are not. */
uint32_t machine_boot_stage(void);

/* Where the flash can be read once more, past its cache; 0 where it cannot. */
uint32_t machine_flash_twin(void);

/* Where the routine in ROM begins that writes the flash; 0 where there is none. */
uint32_t machine_rom(void);

/* Whether the ROM starts a program only if its first eight vectors add up to zero. */
bool machine_sums_vectors(void);

struct device *machine_device(const char *name);
uint32_t device_option(const struct device *, const char *key, uint32_t otherwise);

/* The n-th, from 0, of a list with commas; null where it has not so many. It ends at a comma or a space. */
const char *device_item(const struct device *, const char *key, unsigned n);

/* Every device, for as long as the answer is not null. */
struct device *machine_nth(unsigned n);

/* What devices ask for, by number of the interrupt. */
bool machine_asks(int interrupt);

uint32_t machine_read(uint32_t address, unsigned bytes);
void machine_write(uint32_t address, uint32_t value, unsigned bytes);

/* Time. */
uint64_t machine_cycle(void);
void machine_pass(uint64_t cycles);
uint64_t machine_ns(void);
uint64_t machine_cycle_of(uint64_t ns);
uint32_t machine_hz(void);
/* Complains where the chip may not, or its flash has too few wait states. */
void machine_run_at(uint32_t hz);
/* Cycles of the core in so many nanoseconds, at least 1. */
uint64_t machine_cycles_in(uint64_t ns);

/*
 * Deep sleep: the core's clock stands, and with it all that counts its cycles; time goes on, as if so
 * many cycles had passed. machine_due_stopped is as machine_due, of devices that go on.
 */
void machine_stop(void);
/* The clock stops in any sleep now, for some model can ask for it, and none does. */
bool machine_stops_asleep(void);
void machine_pass_stopped(uint64_t cycles);
uint64_t machine_due_stopped(void);
uint64_t machine_stopped_ns(void);

/* An event for the core; it is kept until it is taken. */
void machine_event(void);
bool machine_take_event(void);

/* The next cycle in which a device does something; machine_step lets all have their turn that are due. */
uint64_t machine_due(void);
void machine_step(void);

/* Something may have changed outside since the last call. */
bool machine_changed(void);

/* A register was read that changes by itself, so that a loop that reads it does not stand still. */
void machine_read_moving(void);
bool machine_moves(void);

/* A device wants the whole chip to start afresh. */
void machine_ask_reset(void);
bool machine_reset_asked(void);

/* The firmware did what the manual forbids; one line of the log. */
void machine_complain(const char *what, uint32_t address);

/* The millivolts at the knob, of SUPPLY_MV. */
#define SUPPLY_MV 5000
extern unsigned machine_knob_mv;
/* The pin that it is wired to: A0. */
extern const char *machine_knob_pin;

#endif
