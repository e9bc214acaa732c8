<#include "/portable/head.ftl">
<@head about="The two-wire bus by the part's own controller, with interrupts and buffers."/>
#include "bus.h"

#include "../port/port.h"
#include "../port/registers.h"

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

<#include find("bus/recover.ftl")>

void isr_bus(void);

/* START, so many bytes, and STOP unless told otherwise; the address byte says in which direction. */
static void transfer(uint32_t address, uint32_t count, uint32_t end)
{
    I2C_CR2 = (address & 0xFEu) | (address & 1u) << I2C_CR2_RD_WRN_PLACE | I2C_CR2_START |
              count << I2C_CR2_NBYTES_PLACE | end;
}

static void receive(void)
{
    transfer(fixed_u8(BUS_FROM(SENSOR_ADDRESS)), bus_to_receive, I2C_CR2_AUTOEND);
}

void isr_bus(void)
{
    uint32_t seen = I2C_ISR;

    if ((seen & (I2C_ISR_NACKF | I2C_ISR_BERR | I2C_ISR_ARLO)) != 0) {
        I2C_ICR = I2C_ISR_NACKF | I2C_ISR_BERR | I2C_ISR_ARLO;
        bus_failed = true;
        /* After a missing acknowledge comes STOP; whoever lost the bus has no say any more. */
        if ((seen & I2C_ISR_NACKF) == 0) {
            bus_busy = false;
        }
    } else if ((seen & I2C_ISR_TXIS) != 0) {
        I2C_TXDR = bus_sent[bus_sent_so_far++];
    } else if ((seen & I2C_ISR_RXNE) != 0) {
        bus_received[bus_arrived] = (uint8_t)I2C_RXDR;
        ++bus_arrived;
    } else if ((seen & I2C_ISR_TC) != 0) {
        receive();
    } else {
        I2C_ICR = I2C_ISR_STOPF;
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
            /* Lets go of the pins, so that the next transaction can free the bus. */
            I2C_CR1 = 0;
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
        transfer(fixed_u8(BUS_TO(SENSOR_ADDRESS)), bus_to_send, count == 0 ? I2C_CR2_AUTOEND : 0);
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
    RCC_I2C |= RCC_I2C_ON;
    I2C_CR1 = 0;
    recover();
    pin_function_open(fixed_u8(PIN_SDA), fixed_u8(BUS_AF));
    pin_function_open(fixed_u8(PIN_SCL), fixed_u8(BUS_AF));
    I2C_TIMINGR = fixed_u32(BUS_TIMING);
    I2C_CR1 = I2C_CR1_PE | I2C_CR1_EVENTS;
    NVIC_ISER = NVIC_I2C1;
}
