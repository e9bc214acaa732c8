/* All models, and how their signals reach pins. */
#ifndef MODELS_H
#define MODELS_H

#include "machine.h"

extern const struct model *const models[];
extern const unsigned models_count;

/* A line "route PIN FUNCTION DEVICE SIGNAL [remap=VALUE/MASK]": what a pin in that function carries. */
void routes_add(const char *line);

/* Whether a peripheral drives the pin in its function, and to what. */
bool routes_drive(const char *pin, unsigned function, bool *high);


extern const struct model nvic_model, systick_model, scb_model, pfic_model, qingke_tick_model;
extern const struct model eclic_model;
extern const struct model rcc_f_model, rcc_g_model, rcc_l_model, pwr_l_model, flash_g_model, flash_l_model;
extern const struct model memory_model, gpio_moder_model, gpio_crl_model;
extern const struct model i2c_timingr_model, i2c_ccr_model, timer_model;
extern const struct model usart_isr_model, usart_sr_model;
extern const struct model pm_model, gclk_model, sysctrl_model, calibration_model, port_samd_model;
extern const struct model nvmctrl_model, wdt_samd_model, adc_samd_model, tc_samd_model;
extern const struct model rtc_samd_model, rtc_counter_model;
extern const struct model sercom_i2c_model, sercom_usart_model;
extern const struct model i2c_dw_model, rp_resets_model, rp_clocks_model, rp_xosc_model, rp_pll_model;
extern const struct model rp_sio_model, rp_uart_model, rp_pwm_model, rp_adc_model, rp_watchdog_model, rp_ssi_model;
extern const struct model nrf_rtc_model, exti_model, awu_model, rtc_model;
extern const struct model iwdg_model, adc_isr_model, adc_sr_model, flash_f_model;
extern const struct model nrf_clock_model, nrf_ppi_model, nrf_gpio_model, nrf_gpiote_model;
extern const struct model nrf_timer_model, nrf_wdt_model, nrf_uart_model, nrf_adc_model;
extern const struct model lpc_syscon_model, lpc_swm_model, lpc_iocon_model, lpc_gpio_model, lpc_gpio1_model;
extern const struct model lpc_i2c_model, lpc_usart_model, lpc_sct_model, lpc_ctimer_model, lpc_adc_model;
extern const struct model lpc_wwdt_model, lpc_iap_model, lpc_pmu_model, lpc_wkt_model;
extern const struct model nrf_nvmc_model, nrf_twi_model;

#endif
