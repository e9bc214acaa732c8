<#include "/portable/head.ftl">
<@head about="The two-wire bus by the part's own controller, waited for."/>
#include "bus.h"

#include "../port/port.h"
#include "../port/registers.h"

bool bus_fault;

/* A byte has been taken from the controller, which holds the clock until it is told how to go on. */
static bool bus_owed;

<#include find("bus/setup.ftl")>

/* Waits for what the controller is to come to; a sensor may hold the clock, but not for ever. */
__attribute__((noinline)) static void wait_for(uint32_t state)
{
    uint32_t patience = fixed_u32(BUS_PATIENCE);
    uint32_t seen;

    do {
        seen = I2C_STAT;
        if ((seen & I2C_STAT_TROUBLE) != 0 || --patience == 0) {
            bus_fault = true;
            return;
        }
    } while ((seen & I2C_STAT_MSTPENDING) == 0);
    if (I2C_STAT_MSTSTATE(seen) != state) {
        bus_fault = true;
    }
}

void bus_put(uint8_t byte)
{
    if (bus_fault) {
        return;
    }
    I2C_MSTDAT = byte;
    I2C_MSTCTL = I2C_MSTCTL_CONTINUE;
    wait_for(I2C_TO_SEND);
}

void bus_start(uint8_t address)
{
    if (bus_fault) {
        return;
    }
    I2C_MSTDAT = address;
    I2C_MSTCTL = I2C_MSTCTL_START;
    bus_owed = false;
    wait_for((address & 1u) != 0 ? I2C_RECEIVED : I2C_TO_SEND);
}

/*
 * The first byte comes in behind the address, each other one is asked for by an acknowledge to the one
 * before; none to the last one, which goes with STOP.
 */
uint8_t bus_get(uint8_t acknowledge)
{
    (void)acknowledge;
    if (bus_fault) {
        return 0;
    }
    if (bus_owed) {
        I2C_MSTCTL = I2C_MSTCTL_CONTINUE;
        wait_for(I2C_RECEIVED);
    }
    bus_owed = true;
    return (uint8_t)I2C_MSTDAT;
}

void bus_stop(void)
{
    uint32_t seen = I2C_STAT;

    if ((seen & I2C_STAT_MSTPENDING) != 0 && I2C_STAT_MSTSTATE(seen) != I2C_IDLE) {
        I2C_MSTCTL = I2C_MSTCTL_STOP;
        wait_for(I2C_IDLE);
    }
    if (bus_fault) {
        /* Lets go of the pins, so that the next transaction can free the bus. */
        I2C_CFG = 0;
    }
}

void bus_begin(void)
{
    bus_fault = false;
    prepare();
}
