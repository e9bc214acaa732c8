<#include "/portable/head.ftl">
<@head about="The two-wire bus by the part's own controller, with interrupts and buffers."/>
#include "bus.h"

#include "../port/port.h"
#include "../port/registers.h"
<#import find("port/irq.ftl") as irq>

/* What the interrupt shares is in memory before it may run, and read again after it has. */
#define BUS_BARRIER() __asm__ volatile("" ::: "memory")

/* More bytes than there can be: waits for the end of the transaction. */
#define BUS_END 0x100

#define BUS_TROUBLE (I2C_STATUS_RXNACK | I2C_STATUS_ARBLOST | I2C_STATUS_BUSERR)

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

<#include find("bus/setup.ftl")>

void isr_bus(void);

/* Ends the transaction, with no answer to a byte that has come in. */
static void finish(void)
{
    I2C_CTRLB = I2C_CTRLB_NACK | I2C_CTRLB_STOP;
    bus_busy = false;
}

static void arrived(void)
{
    uint8_t count = bus_arrived;

    bus_received[count] = I2C_DATA;
    ++count;
    bus_arrived = count;
    if (count == bus_to_receive) {
        finish();
    } else {
        I2C_CTRLB = I2C_CTRLB_READ;
    }
}

static void sent(void)
{
    if (bus_sent_so_far < bus_to_send) {
        I2C_DATA = bus_sent[bus_sent_so_far++];
    } else if (bus_to_receive != 0) {
        I2C_ADDR = fixed_u8(BUS_FROM(SENSOR_ADDRESS));
    } else {
        finish();
    }
}

/* Each way on makes the controller forget why it asked, but for a bus that another one has won. */
void isr_bus(void)
{
    if ((I2C_STATUS & BUS_TROUBLE) != 0) {
        bus_failed = true;
        I2C_INTENCLR = I2C_INTFLAG_MB | I2C_INTFLAG_SB;
        finish();
    } else if ((I2C_INTFLAG & I2C_INTFLAG_SB) != 0) {
        arrived();
    } else {
        sent();
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
            /* So that the next transaction can free the bus. */
            let_go();
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

    if (bus_fault) {
        return;
    }
    /* The STOP of the transaction before may still be on its way. */
    while (!is_idle() && --patience != 0) {
    }
    bus_to_receive = count;
    bus_arrived = 0;
    bus_taken = 0;
    bus_sent_so_far = 0;
    bus_busy = true;
    BUS_BARRIER();
    I2C_ADDR = bus_to_send != 0 ? fixed_u8(BUS_TO(SENSOR_ADDRESS)) : fixed_u8(BUS_FROM(SENSOR_ADDRESS));
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
    I2C_INTENSET = I2C_INTFLAG_MB | I2C_INTFLAG_SB;
    <@irq.enable family.busPort.controller.get().registers.vector/>
}
