/* Lines that wake the core. */
#ifndef EXTI_H
#define EXTI_H

/* A line goes high for a moment. */
void exti_pulse(unsigned line);

/* The RTC woke the part, which PWR of STM32L0 keeps a flag of. */
void pwr_woken(void);

#endif
