<#include "/portable/head.ftl">
<@head about="Registers of the part, as far as this firmware uses them."/>
#ifndef REGISTERS_H
#define REGISTERS_H

#include <stdint.h>

#define REGISTER(address) (*(volatile uint32_t *)(address))
#define REGISTER16(address) (*(volatile uint16_t *)(address))
#define REGISTER8(address) (*(volatile uint8_t *)(address))

<#include find("port/chip.ftl")>

<#include find("port/sercom.ftl")>

/* Power manager: clocks of the bus behind which peripherals are. */
#define PM_APBCMASK REGISTER(0x40000420u)

/* Generic clock controller. */
#define GCLK_CLKCTRL REGISTER16(0x40000C02u)
/* From generator 0, which the core runs from, too. */
#define GCLK_CLKCTRL_ON (1u << 14)
#define GCLK_CLKCTRL_GENERATOR_2 (2u << 8)
#define GCLK_GENCTRL REGISTER(0x40000C04u)
/* Generator 2 on, from the oscillator of 32 kHz, divided by a power of two. */
#define GCLK_GENCTRL_SLOW (1u << 20 | 1u << 16 | 3u << 8 | 2u)
#define GCLK_GENDIV REGISTER(0x40000C08u)
#define GCLK_GENDIV_BY_32 (4u << 8 | 2u)

/* Oscillator of 8 MHz. */
#define SYSCTRL_OSC8M REGISTER(0x40000820u)
#define SYSCTRL_OSC8M_PRESC (3u << 8)

/* Watchdog timer. */
#define WDT_CTRL REGISTER8(0x40001000u)
#define WDT_CTRL_ENABLE 0x02u
#define WDT_CONFIG REGISTER8(0x40001001u)
#define WDT_STATUS REGISTER8(0x40001007u)
#define WDT_STATUS_SYNCBUSY 0x80u
#define WDT_CLEAR REGISTER8(0x40001008u)
#define WDT_CLEAR_KEY 0xA5u

/* Non-volatile memory controller. */
#define NVMCTRL_CTRLA REGISTER16(0x41004000u)
#define NVMCTRL_CTRLA_KEY 0xA500u
#define NVMCTRL_CTRLA_ER 0x02u
#define NVMCTRL_CTRLA_WP 0x04u
#define NVMCTRL_CTRLA_PBC 0x44u
#define NVMCTRL_CTRLB REGISTER(0x41004004u)
#define NVMCTRL_CTRLB_MANW 0x80u
#define NVMCTRL_INTFLAG REGISTER8(0x41004014u)
#define NVMCTRL_INTFLAG_READY 0x01u
#define NVMCTRL_ADDR REGISTER(0x4100401Cu)

/* Port, registers of the group of 32 pins that a pin belongs to. */
#define PORT_AT(pin, offset) (0x41004400u + ((uint32_t)(pin) >> 5) * 0x80u + (offset))
#define PORT_DIRCLR(pin) REGISTER(PORT_AT(pin, 0x04u))
#define PORT_DIRSET(pin) REGISTER(PORT_AT(pin, 0x08u))
#define PORT_OUTCLR(pin) REGISTER(PORT_AT(pin, 0x14u))
#define PORT_OUTSET(pin) REGISTER(PORT_AT(pin, 0x18u))
#define PORT_OUTTGL(pin) REGISTER(PORT_AT(pin, 0x1Cu))
#define PORT_IN(pin) REGISTER(PORT_AT(pin, 0x20u))
#define PORT_PMUX(pin) REGISTER8(PORT_AT(pin, 0x30u + (((uint32_t)(pin) & 31u) >> 1)))
#define PORT_PINCFG(pin) REGISTER8(PORT_AT(pin, 0x40u + ((uint32_t)(pin) & 31u)))
#define PORT_PINCFG_PMUXEN 0x01u
#define PORT_PINCFG_INEN 0x02u
#define PORT_PINCFG_PULLEN 0x04u

/* The ${family.serialPort.get().name} that reports are sent with. */
#define USART_CTRLA_ENABLE 0x02u
/* With its own clock, the lowest bit first. */
#define USART_CTRLA_PLAIN (1u << 30 | 1u << 2)
#define USART_CTRLA_TXPO_PLACE 16
#define USART_CTRLB_TXEN (1u << 16)
#define USART_INTFLAG_DRE 0x01u
#define USART_INTFLAG_TXC 0x02u

/* The ${family.busPort.controller.get().registers.name} that leads the two-wire bus. */
#define I2C_CTRLA_SWRST 0x01u
#define I2C_CTRLA_ENABLE 0x02u
#define I2C_CTRLA_MASTER (5u << 2)
/* Data change 300 to 600 ns after the clock has fallen. */
#define I2C_CTRLA_SDAHOLD (2u << 20)
#define I2C_CTRLB_READ (2u << 16)
#define I2C_CTRLB_STOP (3u << 16)
#define I2C_CTRLB_NACK (1u << 18)
#define I2C_INTFLAG_MB 0x01u
#define I2C_INTFLAG_SB 0x02u
#define I2C_STATUS_BUSERR 0x01u
#define I2C_STATUS_ARBLOST 0x02u
#define I2C_STATUS_RXNACK 0x04u
#define I2C_STATUS_BUSSTATE (3u << 4)
#define I2C_STATUS_IDLE (1u << 4)
#define I2C_STATUS_OWNER (2u << 4)

/* The timer of the sounder. */
#define TC_CTRLA REGISTER16(TC_START + 0x00u)
#define TC_CTRLA_ENABLE 0x02u
#define TC_CTRLA_MFRQ (1u << 5)
#define TC_CC0 REGISTER16(TC_START + 0x18u)

/* Analog-to-digital converter. */
#define ADC_CTRLA REGISTER8(ADC_START + 0x00u)
#define ADC_CTRLA_ENABLE 0x02u
#define ADC_REFCTRL REGISTER8(ADC_START + 0x01u)
#define ADC_REFCTRL_HALF_SUPPLY 0x02u
#define ADC_SAMPCTRL REGISTER8(ADC_START + 0x03u)
#define ADC_SAMPCTRL_LONGEST 0x3Fu
#define ADC_CTRLB REGISTER16(ADC_START + 0x04u)
#define ADC_CTRLB_10_BITS (2u << 4)
#define ADC_SWTRIG REGISTER8(ADC_START + 0x0Cu)
#define ADC_SWTRIG_START 0x02u
#define ADC_INPUTCTRL REGISTER(ADC_START + 0x10u)
/* Half of the voltage between the input and ground. */
#define ADC_INPUTCTRL_HALF (15u << 24 | 0x18u << 8)
#define ADC_INTFLAG REGISTER8(ADC_START + 0x18u)
#define ADC_INTFLAG_RESRDY 0x01u
#define ADC_STATUS REGISTER8(ADC_START + 0x19u)
#define ADC_STATUS_SYNCBUSY 0x80u
#define ADC_RESULT REGISTER16(ADC_START + 0x1Au)
#define ADC_CALIB REGISTER16(ADC_START + 0x28u)

/* What the factory measured: NVM software calibration row. */
#define CALIBRATION_0 REGISTER(0x00806020u)
#define CALIBRATION_1 REGISTER(0x00806024u)

#endif
