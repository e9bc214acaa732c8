/* What the models of the LPC800 series share. */
#ifndef LPC_H
#define LPC_H

#include "models.h"

enum lpc_clock { LPC_BUS, LPC_SERIAL, LPC_SCT, LPC_WATCHDOG, LPC_WAKE };
enum { LPC_POWER_ADC = 4, LPC_POWER_WATCHDOG = 6 };
/* A bit of STARTERP1, and one of the PMU's DPDCTRL. */
enum { LPC_WAKES_WKT = 15, LPC_LPOSCEN = 1u << 2 };

/* The Hz of a peripheral's own clock; 0 where it has none. */
double lpc_hz(enum lpc_clock);

/* Cycles of the core in so many of that clock; complains where it has none. */
double lpc_cycles(const struct device *, enum lpc_clock, double ticks);

/* Whether PDRUNCFG gives power to the block of this bit. */
bool lpc_powered(unsigned bit);

/* Whether PDSLEEPCFG leaves it power in deep sleep, and whether this interrupt ends that: STARTERP1. */
bool lpc_sleeps_with(unsigned bit);
bool lpc_wakes_by(unsigned bit);

/* What IOCON says of a pin, which counts on from port 0 to port 1. */
uint32_t lpc_config(unsigned pin);

/* Which pin has this input of the converter, or -1 where the switch matrix gives it none. */
int lpc_input(unsigned channel);

/* What the switch matrix leads to a pin: a signal of a device, by `place`, a byte of PINASSIGN or a bit of PINENABLE0. */
struct lpc_lead {
    const struct device *from;
    char signal[8];
    unsigned place;
    /* The only pin that it can have; -1 where it can have each. */
    int fixed_pin;
};

/* Null where the pin is a plain one. */
const struct lpc_lead *lpc_led(unsigned pin);

/* The converter's; the debugger's or the reset button's; one that can only pull low. */
bool lpc_is_analog(unsigned pin);
bool lpc_is_held(unsigned pin);
bool lpc_is_pair(int pin);

/* The pin of the n-th register of IOCON, or -1; how many there are. */
int lpc_pin_at(unsigned n);
unsigned lpc_places(void);

#endif
