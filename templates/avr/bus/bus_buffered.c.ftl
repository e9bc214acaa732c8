<#include "/portable/head.ftl">
<@head about="The two-wire bus by the part's own controller, with interrupts and buffers."/>
#include "bus.h"

<#assign r = family.busPort.controller.get().registers>
#include <avr/interrupt.h>
#include <util/delay_basic.h>

#include "../port/port.h"

/* Status codes of the data sheet's tables for the master transmitter and receiver modes. */
#define BUS_STATUS_MASK 0xF8
#define BUS_STARTED 0x08
#define BUS_RESTARTED 0x10
#define BUS_ADDRESS_SENT 0x18
#define BUS_DATA_SENT 0x28
#define BUS_ADDRESS_SENT_TO_READ 0x40
#define BUS_DATA_RECEIVED 0x50
#define BUS_LAST_RECEIVED 0x58

/* The controller's next step, with its interrupt on. */
#define BUS_STEP ((1 << TWINT) | (1 << TWEN) | (1 << TWIE))

/* What the interrupt shares is in memory before it may run, and read again after it has. */
#define BUS_BARRIER() __asm__ volatile("" ::: "memory")

/* More bytes than there can be: waits for the end of the transaction. */
#define BUS_END 0x100

bool bus_fault;

static uint8_t bus_sent[BUS_SEND_BYTES];
static uint8_t bus_received[BUS_RECEIVE_BYTES];

/* Shared with the interrupt. While `bus_busy`, all but `bus_arrived` and `bus_failed` are its own. */
static volatile bool bus_busy;
static volatile bool bus_failed;
static volatile uint8_t bus_arrived;
static uint8_t bus_to_send;
static uint8_t bus_sent_so_far;
static uint8_t bus_to_receive;

static uint8_t bus_taken;

<#include "recover.ftl">

static void finish(void)
{
    ${r.control} = (1 << TWINT) | (1 << TWEN) | (1 << TWSTO);
    bus_busy = false;
}

ISR(${r.vector})
{
    uint8_t acknowledge = 0;

    switch (${r.status} & BUS_STATUS_MASK) {
    case BUS_STARTED:
    case BUS_RESTARTED:
        ${r.data} = bus_sent_so_far < bus_to_send ? BUS_TO(SENSOR_ADDRESS) : BUS_FROM(SENSOR_ADDRESS);
        break;
    case BUS_ADDRESS_SENT:
    case BUS_DATA_SENT:
        if (bus_sent_so_far < bus_to_send) {
            ${r.data} = bus_sent[bus_sent_so_far++];
        } else if (bus_to_receive != 0) {
            ${r.control} = BUS_STEP | (1 << TWSTA);
            return;
        } else {
            finish();
            return;
        }
        break;
    case BUS_DATA_RECEIVED:
        bus_received[bus_arrived] = ${r.data};
        ++bus_arrived;
        /* fall through */
    case BUS_ADDRESS_SENT_TO_READ:
        if (bus_arrived + 1 < bus_to_receive) {
            acknowledge = 1 << TWEA;
        }
        break;
    case BUS_LAST_RECEIVED:
        bus_received[bus_arrived] = ${r.data};
        ++bus_arrived;
        finish();
        return;
    default:
        bus_failed = true;
        finish();
        return;
    }
    ${r.control} = (uint8_t)(BUS_STEP | acknowledge);
}

/* Waits until so many bytes have arrived or the transaction has ended, but not for ever. */
static void wait_for(uint16_t arrived)
{
    uint16_t patience = fixed_u16(BUS_PATIENCE);
    uint8_t seen = bus_arrived;

    while (bus_busy && bus_arrived < arrived) {
        if (bus_arrived != seen) {
            seen = bus_arrived;
            patience = fixed_u16(BUS_PATIENCE);
        }
        if (--patience == 0) {
            /* Lets go of the pins, so that the next transaction can free the bus. */
            ${r.control} = 0;
            bus_busy = false;
            bus_failed = true;
        }
    }
    BUS_BARRIER();
    if (bus_failed) {
        bus_fault = true;
    }
}

static void launch(uint8_t count)
{
    uint16_t patience = fixed_u16(BUS_PATIENCE);

    /* The STOP of the transaction before may still be on its way. */
    while ((${r.control} & (1 << TWSTO)) != 0 && --patience != 0) {
    }
    if (bus_fault) {
        return;
    }
    bus_to_receive = count;
    bus_arrived = 0;
    bus_taken = 0;
    bus_sent_so_far = 0;
    bus_busy = true;
    BUS_BARRIER();
    ${r.control} = BUS_STEP | (1 << TWSTA);
}

void bus_put(uint8_t byte)
{
    if (bus_to_send == fixed_u8(BUS_SEND_BYTES)) {
        bus_fault = true;
        return;
    }
    bus_sent[bus_to_send++] = byte;
}

void bus_flush(void)
{
    launch(0);
    wait_for(BUS_END);
    bus_to_send = 0;
}

void bus_fetch(uint8_t count)
{
    if (count > fixed_u8(BUS_RECEIVE_BYTES)) {
        bus_fault = true;
    }
    launch(count);
}

uint8_t bus_get(uint8_t acknowledge)
{
    (void)acknowledge;
    wait_for((uint16_t)(bus_taken + 1));
    if (bus_fault) {
        return 0;
    }
    return bus_received[bus_taken++];
}

void bus_stop(void)
{
    wait_for(BUS_END);
}

void bus_begin(void)
{
    bus_fault = false;
    bus_failed = false;
    bus_to_send = 0;
    recover();
    ${r.bit_rate} = fixed_u8(BUS_BIT_RATE);
    ${r.control} = 1 << TWEN;
    sei();
}
