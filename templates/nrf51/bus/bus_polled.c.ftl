<#include "/portable/head.ftl">
<@head about="The two-wire bus by the part's own interface, waited for."/>
#include "bus.h"

#include "../port/port.h"
#include "../port/registers.h"

bool bus_fault;

/*
 * Before the first byte comes in, the interface wants to know whether it is the last one. So START
 * for reading waits for it.
 */
static bool bus_asked;

/* A byte has come in, and the sensor is to send more. */
static bool bus_held;

/* The last byte has come in, and STOP comes by itself. */
static bool bus_ended;

<#include "setup.ftl">

/* A byte takes long, and a sensor may hold the clock, but not for ever. */
__attribute__((noinline)) static void wait_for(volatile uint32_t *event)
{
    uint32_t patience = fixed_u32(BUS_PATIENCE);

    while (*event == 0) {
        if (TWI_EVENTS_ERROR != 0 || --patience == 0) {
            bus_fault = true;
            return;
        }
    }
    *event = 0;
}

void bus_put(uint8_t byte)
{
    if (!bus_fault) {
        TWI_TXD = byte;
        wait_for(&TWI_EVENTS_TXDSENT);
    }
}

void bus_start(uint8_t address)
{
    bus_ended = false;
    bus_asked = (address & 1u) != 0;
    if (!bus_asked) {
        TWI_TASKS_STARTTX = 1u;
    }
}

/* One byte in; the interface must know beforehand whether it is the last. */
__attribute__((noinline)) static uint8_t take(uint32_t count)
{
    follow(count);
    if (bus_asked) {
        bus_asked = false;
        PPI_CHENSET = PPI_CHEN_BUS;
        TWI_TASKS_STARTRX = 1u;
    } else {
        go_on();
    }
    wait_for(&TWI_EVENTS_RXDREADY);
    return (uint8_t)TWI_RXD;
}

uint8_t bus_get(uint8_t acknowledge)
{
    uint8_t byte = 0;

    if (!bus_fault) {
        bool last = acknowledge == BUS_LAST;

        byte = take(last ? 1u : 2u);
        bus_held = !last && !bus_fault;
        bus_ended = last && !bus_fault;
    }
    return byte;
}

void bus_stop(void)
{
    if (TWI_ENABLE == 0) {
        /* It has been let go already, after a fault. */
        return;
    }
    if (bus_held) {
        /* A wrong check byte within a frame, and the sensor sends on: refuse one more. */
        bus_held = false;
        (void)take(1u);
    } else if (!bus_ended) {
        TWI_TASKS_STOP = 1u;
    }
    TWI_EVENTS_ERROR = 0;
    wait_for(&TWI_EVENTS_STOPPED);
    if (bus_fault) {
        /* Lets go of the pins, so that the next transaction can free the bus. */
        TWI_ENABLE = 0;
    }
}

void bus_begin(void)
{
    bus_fault = false;
    bus_held = false;
    prepare();
}
