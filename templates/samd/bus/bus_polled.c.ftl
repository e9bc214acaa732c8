<#include "/portable/head.ftl">
<@head about="The two-wire bus by the part's own controller, waited for."/>
#include "bus.h"

#include "../port/port.h"
#include "../port/registers.h"

/* A byte has been sent, or one has come in: the controller holds the clock until it is told more. */
#define BUS_STEP (I2C_INTFLAG_MB | I2C_INTFLAG_SB)

#define BUS_TROUBLE (I2C_STATUS_RXNACK | I2C_STATUS_ARBLOST | I2C_STATUS_BUSERR)

bool bus_fault;

<#include find("bus/setup.ftl")>

/* A byte takes long, and a sensor may hold the clock, but not for ever. */
static void wait_for_step(void)
{
    uint32_t patience = fixed_u32(BUS_PATIENCE);

    while ((I2C_INTFLAG & BUS_STEP) == 0) {
        if (--patience == 0) {
            bus_fault = true;
            return;
        }
    }
    if ((I2C_STATUS & BUS_TROUBLE) != 0) {
        bus_fault = true;
    }
}

void bus_put(uint8_t byte)
{
    if (!bus_fault) {
        I2C_DATA = byte;
        wait_for_step();
    }
}

/* Behind the address of a sensor that is to be read the first byte comes in by itself. */
void bus_start(uint8_t address)
{
    if (!bus_fault) {
        I2C_ADDR = address;
        wait_for_step();
    }
}

/* To the last byte the answer goes out with STOP. */
uint8_t bus_get(uint8_t acknowledge)
{
    uint8_t byte;

    if (bus_fault) {
        return 0;
    }
    byte = I2C_DATA;
    if (acknowledge == BUS_MORE) {
        I2C_CTRLB = I2C_CTRLB_READ;
        wait_for_step();
    }
    return byte;
}

void bus_stop(void)
{
    uint32_t patience = fixed_u32(BUS_PATIENCE);

    if ((I2C_INTFLAG & BUS_STEP) != 0) {
        I2C_CTRLB = I2C_CTRLB_NACK | I2C_CTRLB_STOP;
        while (!is_idle()) {
            if (--patience == 0) {
                bus_fault = true;
                break;
            }
        }
    }
    if (bus_fault) {
        /* So that the next transaction can free the bus. */
        let_go();
    }
}

void bus_begin(void)
{
    bus_fault = false;
    prepare();
}
