#include "twi.h"

#include <stddef.h>
#include <string.h>

#include <simavr/avr_twi.h>

/* Bits of the control register, the same on every part. */
enum { TWIE = 0x01, TWEN = 0x04, TWSTO = 0x10, TWSTA = 0x20, TWEA = 0x40, TWINT = 0x80 };

/* Status codes, from the tables for the master modes. */
enum { IDLE = 0xF8, STARTED = 0x08, RESTARTED = 0x10, TO_ACK = 0x18, SENT_ACK = 0x28,
       LOST = 0x38, FROM_ACK = 0x40, GOT_ACK = 0x50, GOT_NACK = 0x58, NACK_IS = 0x08 };

enum operation { NOTHING, START, BYTE, STOP };

static avr_twi_t *own;
static enum operation operation;
static unsigned phase, bit;
static unsigned shift;
static bool sends, is_address, reads, acknowledges, owns_bus, lost;
static bool low_sda, low_scl;
static avr_cycle_count_t next_at;

static uint8_t status(const avr_t *avr)
{
    return avr->data[own->r_twsr] & 0xF8;
}

static void finish(avr_t *avr, uint8_t code)
{
    operation = NOTHING;
    avr->data[own->r_twsr] = code;
    avr_raise_interrupt(avr, &own->twi);
    avr->data[own->r_twcr] |= TWINT;
}

static void begin_byte(avr_t *avr, uint8_t control)
{
    is_address = status(avr) == STARTED || status(avr) == RESTARTED;
    if (is_address) {
        reads = (avr->data[own->r_twdr] & 1) != 0;
    }
    sends = is_address || !reads;
    acknowledges = (control & TWEA) != 0;
    /* Nine bits; ones where the other side speaks. */
    shift = sends ? avr->data[own->r_twdr] << 1 | 1u : 0x1FEu | (acknowledges ? 0 : 1);
    bit = 0;
    lost = false;
    operation = BYTE;
}

static void write_control(avr_t *avr, avr_io_addr_t address, uint8_t value, void *unused)
{
    (void)unused;
    if ((value & TWEN) == 0) {
        operation = NOTHING;
        low_sda = low_scl = owns_bus = false;
        avr->data[address] = value & (uint8_t)~TWINT;
        avr->data[own->r_twsr] = IDLE;
        return;
    }
    if ((value & TWINT) == 0) {
        avr->data[address] = (uint8_t)(value | (avr->data[address] & TWINT));
        return;
    }
    avr_clear_interrupt(avr, &own->twi);
    avr->data[address] = value & (uint8_t)~TWINT;
    phase = 0;
    next_at = avr->cycle;
    if ((value & TWSTO) != 0 && owns_bus) {
        operation = STOP;
    } else if ((value & TWSTO) != 0) {
        /* Nothing to stop: the controller lets go of the lines and forgets what it was to do. */
        operation = NOTHING;
        low_sda = low_scl = false;
        avr->data[address] &= (uint8_t)~TWSTO;
        avr->data[own->r_twsr] = IDLE;
    } else if ((value & TWSTA) != 0) {
        operation = START;
    } else if (owns_bus) {
        begin_byte(avr, value);
    }
}

void twi_begin(avr_t *avr)
{
    for (avr_io_t *io = avr->io_port; io != NULL; io = io->next) {
        if (strcmp(io->kind, "twi") == 0) {
            own = (avr_twi_t *)io;
            avr->io[AVR_DATA_TO_IO(own->r_twcr)].w.c = write_control;
            avr->io[AVR_DATA_TO_IO(own->r_twdr)].w.c = NULL;
            avr->io[AVR_DATA_TO_IO(own->r_twsr)].w.c = NULL;
        }
    }
    twi_reset(avr);
}

void twi_reset(avr_t *avr)
{
    operation = NOTHING;
    low_sda = low_scl = owns_bus = false;
    if (own != NULL) {
        avr->data[own->r_twsr] = IDLE;
    }
}

static void step_start(avr_t *avr, bool sda)
{
    if (phase == 0) {
        low_sda = false;
    } else if (phase == 1) {
        low_scl = false;
    } else if (phase == 2) {
        if (!sda) {
            return; /* Waits for a free bus. */
        }
        low_sda = true;
    } else {
        low_scl = true;
        finish(avr, owns_bus ? RESTARTED : STARTED);
        owns_bus = true;
    }
    ++phase;
}

static uint8_t code_of(bool answered)
{
    if (!sends) {
        return acknowledges ? GOT_ACK : GOT_NACK;
    }
    return (uint8_t)((is_address ? (reads ? FROM_ACK : TO_ACK) : SENT_ACK) +
                     (answered ? 0 : NACK_IS));
}

/* A bit: data while the clock is low, half a bit; the clock high, half a bit; the clock falls. */
static void step_byte(avr_t *avr, bool sda, avr_cycle_count_t at)
{
    if (phase == 0) {
        low_sda = (shift & 0x100) == 0;
        phase = 1;
    } else if (phase == 1) {
        low_scl = false;
        phase = 2;
    } else {
        lost = lost || (sends && bit < 8 && (shift & 0x100) != 0 && !sda);
        shift = shift << 1 | (sda ? 1u : 0);
        low_scl = true;
        phase = 0;
        next_at = at;
        if (++bit == 9) {
            avr->data[own->r_twdr] = (uint8_t)(shift >> 1);
            finish(avr, lost ? LOST : code_of((shift & 1) == 0));
        }
    }
}

static void step_stop(avr_t *avr)
{
    if (phase == 0) {
        low_sda = true;
    } else if (phase == 1) {
        low_scl = false;
    } else if (phase == 2) {
        low_sda = false;
    } else {
        operation = NOTHING;
        owns_bus = false;
        avr->data[own->r_twcr] &= (uint8_t)~TWSTO;
        avr->data[own->r_twsr] = IDLE;
    }
    ++phase;
}

/* SCL = clock / (16 + 2 * TWBR), prescaler 1: data sheets, "Bit Rate Generator Unit". */
static avr_cycle_count_t half(const avr_t *avr)
{
    return 8u + avr->data[own->r_twbr];
}

/*
 * From this phase of an operation to the next. The low half is two cycles shorter than the high one:
 * ATmega48/88/168 data sheet 7530K, "2-wire Serial Bus Requirements", notes 6 and 7.
 */
static avr_cycle_count_t length(const avr_t *avr)
{
    if (operation != BYTE) {
        return half(avr);
    }
    return phase == 0 ? half(avr) - 2 : half(avr) + 2;
}

bool twi_step(avr_t *avr, bool sda, avr_cycle_count_t *at)
{
    if (operation == NOTHING || avr->cycle < next_at) {
        return false;
    }
    *at = next_at;
    next_at += length(avr);
    if (operation == START) {
        step_start(avr, sda);
    } else if (operation == BYTE) {
        step_byte(avr, sda, *at);
    } else {
        step_stop(avr);
    }
    return true;
}

void twi_wait(avr_t *avr, bool scl)
{
    /* Somebody holds the clock: the high half begins when it rises. */
    if (operation != NOTHING && !low_scl && !scl) {
        next_at = avr->cycle + half(avr) + 2;
    }
}

bool twi_is_calm(void)
{
    return operation == NOTHING;
}

bool twi_pulls_sda(void)
{
    return low_sda;
}

bool twi_pulls_scl(void)
{
    return low_scl;
}
