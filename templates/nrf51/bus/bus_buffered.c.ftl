<#include "/portable/head.ftl">
<@head about="The two-wire bus by the part's own interface, with interrupts and buffers."/>
#include "bus.h"

#include "../port/port.h"
#include "../port/registers.h"
<#import find("port/irq.ftl") as irq>

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

<#include "setup.ftl">

static void receive(void)
{
    follow(bus_to_receive);
    PPI_CHENSET = PPI_CHEN_BUS;
    TWI_TASKS_STARTRX = 1u;
}

static void sent(void)
{
    TWI_EVENTS_TXDSENT = 0;
    if (bus_sent_so_far < bus_to_send) {
        TWI_TXD = bus_sent[bus_sent_so_far++];
    } else if (bus_to_receive != 0) {
        receive();
    } else {
        TWI_TASKS_STOP = 1u;
    }
}

static void arrived(void)
{
    uint8_t count = bus_arrived;

    TWI_EVENTS_RXDREADY = 0;
    bus_received[count] = (uint8_t)TWI_RXD;
    ++count;
    bus_arrived = count;
    if (count < bus_to_receive) {
        follow((uint32_t)bus_to_receive - count);
        go_on();
    }
}

void isr_bus(void);

void isr_bus(void)
{
    if (TWI_EVENTS_ERROR != 0) {
        TWI_EVENTS_ERROR = 0;
        bus_failed = true;
        TWI_TASKS_STOP = 1u;
    } else if (TWI_EVENTS_TXDSENT != 0) {
        sent();
    } else if (TWI_EVENTS_RXDREADY != 0) {
        arrived();
    } else {
        TWI_EVENTS_STOPPED = 0;
        bus_busy = false;
    }
}

/* Waits until so many bytes have arrived or the transaction has ended, but not for ever. */
static void wait_for(uint16_t count)
{
    uint32_t patience = fixed_u32(BUS_PATIENCE);
    uint8_t seen = bus_arrived;

    while (bus_busy && bus_arrived < count) {
        if (bus_arrived != seen) {
            seen = bus_arrived;
            patience = fixed_u32(BUS_PATIENCE);
        }
        if (--patience == 0) {
            /* Lets go of the pins, so that the next transaction can free the bus. */
            TWI_INTENCLR = TWI_INTEN_ALL;
            TWI_ENABLE = 0;
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
    if (bus_fault) {
        return;
    }
    bus_to_receive = count;
    bus_arrived = 0;
    bus_taken = 0;
    bus_sent_so_far = 0;
    bus_busy = true;
    BUS_BARRIER();
    if (bus_to_send != 0) {
        bus_sent_so_far = 1;
        BUS_BARRIER();
        TWI_TASKS_STARTTX = 1u;
        TWI_TXD = bus_sent[0];
    } else {
        receive();
    }
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
    prepare();
    TWI_INTENSET = TWI_INTEN_ALL;
    <@irq.enable family.busPort.controller.get().registers.vector/>
    <@irq.on/>
}
