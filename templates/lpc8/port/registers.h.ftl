<#include "/portable/head.ftl">
<@head about="Registers of the part, as far as this firmware uses them."/>
#ifndef REGISTERS_H
#define REGISTERS_H

#include <stdint.h>

#define REGISTER(address) (*(volatile uint32_t *)(address))

<#-- The tick follows from the clock, and so the clock from the tick. -->
#define CLOCK_KHZ ${(pace.prescaler * (pace.top + 1) / pace.exactTickMs)?round?c}u

<#include find("port/chip.ftl")>

/* What is the same in all parts of the series, at the same addresses. */
#define SYSCON_PDRUNCFG REGISTER(0x40048238u)
#define SYSCON_ON REGISTER(0x40048080u)
#define SYSCON_ON_I2C (1u << 5)
#define SYSCON_ON_SCT (1u << 8)
#define SYSCON_ON_USART (1u << 14)
#define SYSCON_ON_WWDT (1u << 17)
#define SYSCON_ON_ADC (1u << 24)

/* Switch matrix: for each function that can be moved a byte with the number of its pin. */
#define SWM_PINASSIGN(function) REGISTER(0x4000C000u + ((uint32_t)(function) & 0x7Cu))
/* A bit for each function that has a pin of its own: 0 is on. */
#define SWM_PINENABLE0 REGISTER(0x4000C1C0u)
#define PIN_NONE 0xFFu
<#list ["SDA", "SCL", "KNOB", "LAMP", "SOUNDER", "RELAY", "MUTE", "TRANSMIT"] as role>
<#if pin[role?lower_case]??>
#define SWM_PLAIN_${role} SWM_PLAIN(PIN_${role})
<#else>
#define SWM_PLAIN_${role} 0u
</#if>
</#list>
/* Debugger and reset button have these pins after a reset: those that this program wants are taken. */
#define SWM_PLAIN(pin) ((pin) == 2u ? SWM_SWDIO : (pin) == 3u ? SWM_SWCLK : (pin) == 5u ? SWM_RESET : 0u)
#define SWM_TAKEN \
    (SWM_PLAIN_SDA | SWM_PLAIN_SCL | SWM_PLAIN_KNOB | SWM_PLAIN_LAMP | SWM_PLAIN_SOUNDER | \
     SWM_PLAIN_RELAY | SWM_PLAIN_MUTE | SWM_PLAIN_TRANSMIT)

/* General-purpose I/O: a byte for the level of each pin, words with a bit for each. */
#define GPIO_LEVEL(pin) (*(volatile uint8_t *)(0xA0000000u + (uint32_t)(pin)))
#define GPIO_DIR(pin) REGISTER(0xA0002000u + (((uint32_t)(pin) >> 5) << 2))
#define GPIO_NOT(pin) REGISTER(0xA0002300u + (((uint32_t)(pin) >> 5) << 2))

/* What a pin is electrically. */
#define IOCON(place) REGISTER(0x40044000u + ((uint32_t)(place) << 2))
#define IOCON_PLAIN 0x080u
#define IOCON_PULL_UP 0x090u
#define IOCON_OPEN 0x480u
/* The two pins that can only pull low: fit for a bus, or for a slow switch. */
#define IOCON_PAIR_BUS 0x080u
#define IOCON_PAIR_PLAIN 0x180u

/* I2C0. */
#define I2C_CFG REGISTER(0x40050000u)
#define I2C_CFG_MSTEN 0x01u
#define I2C_STAT REGISTER(0x40050004u)
#define I2C_STAT_MSTPENDING 0x01u
#define I2C_STAT_MSTSTATE(seen) (((seen) >> 1) & 7u)
#define I2C_IDLE 0u
#define I2C_RECEIVED 1u
#define I2C_TO_SEND 2u
/* MSTARBLOSS and MSTSTSTPERR, which writing them clears. */
#define I2C_STAT_TROUBLE 0x50u
#define I2C_INTENSET REGISTER(0x40050008u)
#define I2C_INTENCLR REGISTER(0x4005000Cu)
#define I2C_CLKDIV REGISTER(0x40050014u)
#define I2C_MSTCTL REGISTER(0x40050020u)
#define I2C_MSTCTL_CONTINUE 0x01u
#define I2C_MSTCTL_START 0x02u
#define I2C_MSTCTL_STOP 0x04u
#define I2C_MSTTIME REGISTER(0x40050024u)
#define I2C_MSTDAT REGISTER(0x40050028u)

/* Interrupt controller: Armv6-M Architecture Reference Manual, B3.4. */
#define NVIC_ISER REGISTER(0xE000E100u)
#define NVIC_I2C0 (1u << 8)

/* USART0, which reports are sent with. */
#define USART_CFG REGISTER(0x40064000u)
/* Eight bits, no parity, one stop bit. */
#define USART_CFG_ON 0x05u
#define USART_STAT REGISTER(0x40064008u)
#define USART_STAT_TXRDY 0x04u
#define USART_STAT_TXIDLE 0x08u
#define USART_TXDAT REGISTER(0x4006401Cu)
#define USART_BRG REGISTER(0x40064020u)

/* Windowed watchdog. */
#define WWDT_MOD REGISTER(0x40000000u)
/* WDEN and WDRESET. */
#define WWDT_MOD_RESTARTS 0x03u
#define WWDT_TC REGISTER(0x40000004u)
#define WWDT_FEED REGISTER(0x40000008u)

#endif
