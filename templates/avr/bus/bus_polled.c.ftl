<#include "/portable/head.ftl">
<@head about="The two-wire bus by the part's own controller, waited for."/>
#include "bus.h"

<#assign r = family.busPort.controller.get().registers>
#include <util/delay_basic.h>

#include "../port/port.h"

/* Status codes of the data sheet's tables for the master transmitter and receiver modes. */
#define BUS_STATUS_MASK 0xF8
#define BUS_STARTED 0x08
#define BUS_RESTARTED 0x10
#define BUS_ADDRESS_SENT 0x18
#define BUS_DATA_SENT 0x28
#define BUS_ADDRESS_SENT_TO_READ 0x40

bool bus_fault;

<#include "recover.ftl">

/* Sets the controller to its next step and waits for it: a bit takes long, but not for ever. */
__attribute__((noinline)) static uint8_t step(uint8_t control)
{
    uint16_t patience = fixed_u16(BUS_PATIENCE);

    if (bus_fault) {
        return 0;
    }
    ${r.control} = (uint8_t)(control | (1 << TWINT) | (1 << TWEN));
    while ((${r.control} & (1 << TWINT)) == 0) {
        if (--patience == 0) {
            bus_fault = true;
            break;
        }
    }
    return ${r.status} & BUS_STATUS_MASK;
}

void bus_put(uint8_t byte)
{
    uint8_t status;

    ${r.data} = byte;
    status = step(0);
    if (status != BUS_ADDRESS_SENT && status != BUS_DATA_SENT &&
        status != BUS_ADDRESS_SENT_TO_READ) {
        bus_fault = true;
    }
}

void bus_start(uint8_t address)
{
    uint8_t status = step(1 << TWSTA);

    if (status != BUS_STARTED && status != BUS_RESTARTED) {
        bus_fault = true;
    }
    bus_put(address);
}

uint8_t bus_get(uint8_t acknowledge)
{
    (void)step(acknowledge == BUS_MORE ? (1 << TWEA) : 0);
    return ${r.data};
}

void bus_stop(void)
{
    uint16_t patience = fixed_u16(BUS_PATIENCE);

    ${r.control} = (1 << TWINT) | (1 << TWSTO) | (1 << TWEN);
    while ((${r.control} & (1 << TWSTO)) != 0 && --patience != 0) {
    }
    if (patience == 0) {
        bus_fault = true;
        /* Lets go of the pins, so that the next transaction can free the bus. */
        ${r.control} = 0;
    }
}

void bus_begin(void)
{
    bus_fault = false;
    recover();
    ${r.bit_rate} = fixed_u8(BUS_BIT_RATE);
    ${r.control} = 1 << TWEN;
}
