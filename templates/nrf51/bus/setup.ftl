<#--
What both hardware drivers share: the interface made ready, and the bus freed; needs port.h and
registers.h. The anomalies are those of the maker's product anomaly notices for nRF51822, by number.
-->
<#include find("bus/recover.ftl")>

/*
 * After each byte that comes in the interface holds the clock, until it is told to go on; behind the
 * last one it refuses more and sends STOP. A channel from its event at the border of bytes (BB) to
 * its task does that; its own shortcuts would do the same, but not in all revisions (anomaly 36).
 */
static void follow(uint32_t count)
{
    PPI_CH0_TEP = count == 1u ? TWI_TASKS_STOP_PLACE : TWI_TASKS_SUSPEND_PLACE;
}

/* Before the answer to a byte has been sent, two bits, a RESUME can lock the interface up (anomaly 56). */
static void go_on(void)
{
    half_bit();
    half_bit();
    TWI_TASKS_RESUME = 1u;
}

/* An interface that was without power for 5 us has forgotten that it was locked up (anomaly 56). */
static void prepare(void)
{
    TWI_ENABLE = 0;
    TWI_POWER = 0;
    recover();
    half_bit();
    TWI_POWER = 1u;
    pin_function_open(fixed_u8(PIN_SDA), 0);
    pin_function_open(fixed_u8(PIN_SCL), 0);
    TWI_PSELSDA = fixed_u8(PIN_SDA);
    TWI_PSELSCL = fixed_u8(PIN_SCL);
    TWI_FREQUENCY = fixed_u32(BUS_FREQUENCY);
    TWI_ADDRESS = fixed_u8(SENSOR_ADDRESS);
    PPI_CHENCLR = PPI_CHEN_BUS;
    PPI_CH0_EEP = TWI_EVENTS_BB_PLACE;
    TWI_ENABLE = TWI_ENABLE_ON;
}
