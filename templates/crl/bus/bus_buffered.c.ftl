<#include "/portable/head.ftl">
<@head about="The two-wire bus by the part's own controller, with interrupts and buffers."/>
#include "bus.h"

#include "../port/port.h"
#include "../port/registers.h"
<#import find("port/irq.ftl") as irq>
<#assign controller = family.busPort.controller.get().registers>

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

static void finish(void)
{
    BUS_CONTROL2 = fixed_u8(BUS_FREQUENCY);
    bus_busy = false;
}

/* The next byte is the last: no answer to it, and STOP behind it. */
static void announce_end(void)
{
    BUS_CONTROL1 = BUS_ON | BUS_STOP;
}

static void addressed(void)
{
    if (bus_sent_so_far < bus_to_send) {
        (void)BUS_STATUS2;
    } else if (bus_to_receive == 1) {
        BUS_CONTROL1 = BUS_ON;
        (void)BUS_STATUS2;
        announce_end();
    } else {
        BUS_CONTROL1 = BUS_ON | BUS_ACKNOWLEDGE;
        (void)BUS_STATUS2;
    }
    BUS_CONTROL2 = fixed_u8(BUS_FREQUENCY) | BUS_INTERRUPTS | BUS_DATA_INTERRUPTS;
}

static void arrived(void)
{
    uint8_t count = bus_arrived;

    bus_received[count] = (uint8_t)BUS_DATA;
    ++count;
    bus_arrived = count;
    if (count == bus_to_receive) {
        finish();
    } else if (count + 1 == bus_to_receive) {
        announce_end();
    }
}

static void sent(uint32_t control, uint32_t status)
{
    if (bus_sent_so_far < bus_to_send) {
        BUS_DATA = bus_sent[bus_sent_so_far++];
        return;
    }
    /* Nothing more to give: what counts now is that the last byte has been acknowledged. */
    BUS_CONTROL2 = fixed_u8(BUS_FREQUENCY) | BUS_INTERRUPTS;
    if ((status & BUS_SENT) != 0) {
        if (bus_to_receive == 0) {
            BUS_CONTROL1 = BUS_ON | BUS_STOP;
            finish();
        } else if ((control & BUS_START) == 0) {
            /* Until the START is there the interrupt comes again. */
            BUS_CONTROL1 = BUS_ON | BUS_START;
        }
    }
}

void isr_bus(void)<@irq.attribute/>;

void isr_bus(void)
{
    /* In this order: a START that ends in between is seen as BUS_STARTED. */
    uint32_t control = BUS_CONTROL1;
    uint32_t status = BUS_STATUS1;

    if (!bus_busy) {
        /* Asked for before the end, and late at the core. */
        return;
    }
    if ((status & BUS_TROUBLE) != 0) {
        BUS_STATUS1 = 0;
        bus_failed = true;
        BUS_CONTROL1 = BUS_ON | BUS_STOP;
        finish();
    } else if ((status & BUS_STARTED) != 0) {
        BUS_DATA = bus_sent_so_far < bus_to_send ? BUS_TO(SENSOR_ADDRESS) : BUS_FROM(SENSOR_ADDRESS);
    } else if ((status & BUS_ADDRESSED) != 0) {
        addressed();
    } else if ((status & BUS_ARRIVED) != 0) {
        arrived();
    } else if ((status & BUS_EMPTY) != 0) {
        sent(control, status);
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
            BUS_CONTROL2 = fixed_u8(BUS_FREQUENCY);
            BUS_CONTROL1 = 0;
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
    uint32_t patience = fixed_u32(BUS_PATIENCE);

    /* The STOP of the transaction before may still be on its way. */
    while ((BUS_CONTROL1 & BUS_STOP) != 0 && --patience != 0) {
    }
    /* The bus is free for as long as UM10204 wants it to be, tBUF, before the next START. */
    half_bit();
    if (bus_fault) {
        return;
    }
    bus_to_receive = count;
    bus_arrived = 0;
    bus_taken = 0;
    bus_sent_so_far = 0;
    bus_busy = true;
    BUS_BARRIER();
    BUS_CONTROL2 = fixed_u8(BUS_FREQUENCY) | BUS_INTERRUPTS;
    BUS_CONTROL1 = BUS_ON | BUS_START;
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
    <@irq.enable controller.vector/>
    <@irq.enable controller.error_vector/>
    <@irq.on/>
}
