<#include "/portable/head.ftl">
<@head about="The two-wire bus by the part's own controller, with interrupts and buffers."/>
#include "bus.h"

#include "../port/port.h"
#include "../port/registers.h"

/* What the interrupt shares is in memory before it may run, and read again after it has. */
#define BUS_BARRIER() __asm__ volatile("" ::: "memory")

/* More bytes than there can be: waits for the end of the transaction. */
#define BUS_END 0x100

/* What asks for an interrupt. */
#define BUS_EVENTS (I2C_STAT_MSTPENDING | I2C_STAT_TROUBLE)

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

/* The idle controller would ask for an interrupt for ever. */
static void finish(void)
{
    I2C_INTENCLR = BUS_EVENTS;
    bus_busy = false;
}

static void received(void)
{
    uint8_t count = bus_arrived;

    bus_received[count] = (uint8_t)I2C_MSTDAT;
    ++count;
    bus_arrived = count;
    I2C_MSTCTL = count == bus_to_receive ? I2C_MSTCTL_STOP : I2C_MSTCTL_CONTINUE;
}

static void to_send(void)
{
    if (bus_sent_so_far < bus_to_send) {
        I2C_MSTDAT = bus_sent[bus_sent_so_far++];
        I2C_MSTCTL = I2C_MSTCTL_CONTINUE;
    } else if (bus_to_receive != 0) {
        I2C_MSTDAT = fixed_u8(BUS_FROM(SENSOR_ADDRESS));
        I2C_MSTCTL = I2C_MSTCTL_START;
    } else {
        I2C_MSTCTL = I2C_MSTCTL_STOP;
    }
}

void isr_bus(void)
{
    uint32_t seen = I2C_STAT;
    uint32_t state = I2C_STAT_MSTSTATE(seen);

    if ((seen & I2C_STAT_TROUBLE) != 0) {
        I2C_STAT = I2C_STAT_TROUBLE;
        bus_failed = true;
        finish();
    } else if (state == I2C_RECEIVED) {
        received();
    } else if (state == I2C_TO_SEND) {
        to_send();
    } else if (state == I2C_IDLE) {
        finish();
    } else {
        /* No acknowledge. */
        bus_failed = true;
        I2C_MSTCTL = I2C_MSTCTL_STOP;
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
            finish();
            I2C_CFG = 0;
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
    I2C_MSTDAT = bus_to_send != 0 ? fixed_u8(BUS_TO(SENSOR_ADDRESS)) : fixed_u8(BUS_FROM(SENSOR_ADDRESS));
    I2C_MSTCTL = I2C_MSTCTL_START;
    I2C_INTENSET = BUS_EVENTS;
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
    NVIC_ISER = NVIC_I2C0;
}
