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

#define BUS_EVENTS (IC_INTR_RX_FULL | IC_INTR_TX_ABRT | IC_INTR_STOP_DET)

bool bus_fault;

static uint8_t bus_sent[BUS_SEND_BYTES];
static uint8_t bus_received[BUS_RECEIVE_BYTES];

/* Shared with the interrupt. While `bus_busy`, all but `bus_arrived` and `bus_failed` are its own. */
static volatile bool bus_busy;
static volatile bool bus_failed;
static volatile uint8_t bus_arrived;
static uint8_t bus_to_send;
static uint16_t bus_commands;
static uint16_t bus_given;

static uint8_t bus_taken;

<#include "setup.ftl">

/*
 * The controller works off commands: a byte to send or to receive, and whether STOP comes behind it.
 * START and the address it sends by itself, and again where the direction changes. Its FIFO would
 * take 16 of them, but one that is in there cannot be called back: each is given when the one before
 * it is done, and meanwhile the controller holds the clock low. It has no limit to how long a sensor
 * may hold the clock; that is in wait_for().
 */
static void give(void)
{
    uint16_t next = bus_given++;
    uint32_t command = next < bus_to_send ? bus_sent[next] : IC_DATA_CMD_READ;

    if (bus_given == bus_commands) {
        command |= IC_DATA_CMD_STOP;
        IC_INTR_MASK = BUS_EVENTS;
    }
    IC_DATA_CMD = command;
}

void isr_bus(void)<@irq.attribute/>;

void isr_bus(void)
{
    uint32_t seen = IC_INTR_STAT;

    if ((seen & IC_INTR_RX_FULL) != 0) {
        uint8_t count = bus_arrived;

        bus_received[count] = (uint8_t)IC_DATA_CMD;
        ++count;
        bus_arrived = count;
    }
    if ((seen & IC_INTR_TX_ABRT) != 0) {
        /* Not acknowledged: the controller throws its commands away, and STOP follows. */
        bus_failed = true;
        IC_INTR_MASK = IC_INTR_STOP_DET;
    } else if ((seen & IC_INTR_TX_EMPTY) != 0) {
        give();
    }
    if ((seen & IC_INTR_STOP_DET) != 0) {
        (void)IC_CLR_INTR;
        IC_INTR_MASK = 0;
        bus_busy = false;
    }
}

/* Waits until so many bytes have arrived or the transaction has ended, but not for ever. */
static void wait_for(uint16_t arrived)
{
    uint32_t patience = fixed_u32(BUS_PATIENCE);
    uint8_t seen = bus_arrived;

    while (bus_busy && bus_arrived < arrived) {
        if (bus_arrived != seen) {
            seen = bus_arrived;
            patience = fixed_u32(BUS_PATIENCE);
        }
        if (--patience == 0) {
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
    if (bus_fault) {
        return;
    }
    bus_commands = (uint16_t)(bus_to_send + count);
    bus_given = 0;
    bus_arrived = 0;
    bus_taken = 0;
    bus_busy = true;
    /* TX_EMPTY says that a command is done; so the first one is given without it. */
    give();
    BUS_BARRIER();
    if (bus_given != bus_commands) {
        IC_INTR_MASK = BUS_EVENTS | IC_INTR_TX_EMPTY;
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
    IC_INTR_MASK = 0;
    IC_TAR = fixed_u8(SENSOR_ADDRESS);
    IC_ENABLE = 1;
    <@irq.enable controller.vector/>
    <@irq.on/>
}
