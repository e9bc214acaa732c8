<#include "/portable/head.ftl">
<@head about="The two-wire bus by the part's own controller, waited for."/>
#include "bus.h"

#include "../port/port.h"
#include "../port/registers.h"

bool bus_fault;

/*
 * The controller works off commands: a byte to send or to receive, and whether STOP comes behind it.
 * START and the address it sends by itself before the first one, and again before one that asks for
 * it. Between two commands it holds the clock low, and once begun a byte cannot be called back. So a
 * byte that is to be sent waits for the next call, which says whether it was the last; and one
 * command at a time is given, so that nothing but it is under way when something goes wrong:
 *
 * - A missing acknowledge sets TX_ABRT, and the controller ends with STOP.
 * - A sensor that holds the clock longer than our patience, or a line that is stuck, ends
 *   in the reset of the block, which the next transaction begins with too.
 */
static uint32_t bus_command;
static uint8_t bus_byte;
static bool bus_held;

<#include "setup.ftl">

/* Any of these. A bit takes long, and a sensor may hold the clock, but not for ever. */
__attribute__((noinline)) static void wait_for(uint32_t flags)
{
    uint32_t patience = fixed_u32(BUS_PATIENCE);
    uint32_t seen;

    do {
        seen = IC_RAW_INTR_STAT;
        if (--patience == 0) {
            bus_fault = true;
            return;
        }
    } while ((seen & flags) == 0);
    if ((seen & IC_INTR_TX_ABRT) != 0) {
        bus_fault = true;
    }
}

/* One byte, there or back; `end` is IC_DATA_CMD_STOP for the last one, or 0. */
__attribute__((noinline)) static uint8_t move(uint8_t byte, uint32_t end)
{
    uint32_t command = bus_command;

    if (bus_fault) {
        return 0;
    }
    bus_command = command & IC_DATA_CMD_READ;
    IC_DATA_CMD = command | byte | end;
    if (bus_command != 0) {
        wait_for(IC_INTR_RX_FULL | IC_INTR_TX_ABRT);
        byte = (uint8_t)IC_DATA_CMD;
    } else {
        wait_for(IC_INTR_TX_EMPTY | IC_INTR_TX_ABRT);
    }
    if (end != 0) {
        /* Nothing more to say: STOP is on its way. */
        bus_command = 0;
    }
    return byte;
}

static void send_held(uint32_t end)
{
    if (bus_held) {
        bus_held = false;
        (void)move(bus_byte, end);
    }
}

void bus_put(uint8_t byte)
{
    send_held(0);
    bus_byte = byte;
    bus_held = true;
}

void bus_start(uint8_t address)
{
    uint32_t restart = 0;

    if (bus_held) {
        send_held(0);
        restart = IC_DATA_CMD_RESTART;
    } else if (!bus_fault) {
        IC_ENABLE = 0;
        IC_TAR = address >> 1;
        IC_ENABLE = 1;
    }
    bus_command = restart | ((address & 1u) != 0 ? IC_DATA_CMD_READ : 0);
}

uint8_t bus_get(uint8_t acknowledge)
{
    return move(0, acknowledge == BUS_MORE ? 0 : IC_DATA_CMD_STOP);
}

void bus_stop(void)
{
    send_held(IC_DATA_CMD_STOP);
    if (bus_command != 0) {
        /* A wrong check byte within a frame, and the sensor sends on: refuse one more. */
        (void)move(0, IC_DATA_CMD_STOP);
    }
    if (!bus_fault || (IC_RAW_INTR_STAT & IC_INTR_TX_ABRT) != 0) {
        /* An acknowledge may be found missing only now. */
        wait_for(IC_INTR_STOP_DET);
        (void)IC_CLR_INTR;
    }
    if (bus_fault) {
        let_go();
    }
}

void bus_begin(void)
{
    bus_fault = false;
    bus_held = false;
    bus_command = 0;
    prepare();
}
