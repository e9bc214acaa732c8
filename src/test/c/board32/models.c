#include "models.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#define ROUTES_MOST 64

const struct model *const models[] = {
    &nvic_model, &systick_model, &scb_model, &pfic_model,
    &qingke_tick_model, &eclic_model, &rcc_f_model, &memory_model,
    &gpio_moder_model, &gpio_crl_model, &i2c_timingr_model, &i2c_ccr_model,
    &timer_model, &usart_isr_model, &usart_sr_model, &iwdg_model,
    &adc_isr_model, &adc_sr_model, &flash_f_model, &rcc_g_model,
    &rcc_l_model, &flash_g_model, &flash_l_model, &nrf_clock_model,
    &nrf_ppi_model, &nrf_gpio_model, &nrf_gpiote_model, &nrf_timer_model,
    &nrf_wdt_model, &nrf_uart_model, &nrf_adc_model, &nrf_nvmc_model,
    &nrf_twi_model, &pm_model, &gclk_model, &sysctrl_model,
    &calibration_model, &port_samd_model, &nvmctrl_model, &wdt_samd_model,
    &adc_samd_model, &tc_samd_model, &sercom_i2c_model, &sercom_usart_model,
    &i2c_dw_model, &rp_resets_model, &rp_clocks_model, &rp_xosc_model,
    &rp_pll_model, &rp_sio_model, &rp_uart_model, &rp_pwm_model,
    &rp_adc_model, &rp_watchdog_model, &pwr_l_model, &lpc_syscon_model,
    &lpc_swm_model, &lpc_iocon_model, &lpc_gpio_model, &lpc_gpio1_model,
    &lpc_i2c_model, &lpc_usart_model, &lpc_sct_model, &lpc_ctimer_model,
    &lpc_adc_model, &lpc_wwdt_model, &lpc_iap_model, &rp_ssi_model,
    &lpc_pmu_model, &lpc_wkt_model,
    &nrf_rtc_model, &exti_model, &awu_model, &rtc_model, &rtc_samd_model, &rtc_counter_model,
};
const unsigned models_count = sizeof models / sizeof models[0];

static struct route {
    char pin[8], device[16], signal[8];
    unsigned function, remap_mask, remap;
} routes[ROUTES_MOST];
static unsigned route_count;

void routes_add(const char *line)
{
    struct route *route = &routes[route_count++];
    const char *remap = strstr(line, "remap=");

    if (route_count > ROUTES_MOST) {
        fprintf(stderr, "too many routes\n");
        exit(2);
    }
    if (sscanf(line, " route %7s %u %15s %7s", route->pin, &route->function, route->device,
               route->signal) != 4) {
        fprintf(stderr, "not understood: %s\n", line);
        exit(2);
    }
    if (remap != NULL) {
        sscanf(remap, "remap=%i/%i", (int *)&route->remap, (int *)&route->remap_mask);
    }
}

/* Where the alternate functions of a whole peripheral are led: AFIO_MAPR, RM0008, 9.4.2. */
static bool is_led(const struct route *route)
{
    struct device *afio = machine_device("afio");

    return route->remap_mask == 0 ||
           (afio->model->read(afio, 4) & route->remap_mask) == route->remap;
}

bool routes_drive(const char *pin, unsigned function, bool *high)
{
    for (unsigned i = 0; i < route_count; i++) {
        const struct device *device;

        if (strcmp(routes[i].pin, pin) != 0 || routes[i].function != function ||
            !is_led(&routes[i])) {
            continue;
        }
        device = machine_device(routes[i].device);
        if (device->model->drives(device, routes[i].signal, high)) {
            return true;
        }
    }
    return false;
}
