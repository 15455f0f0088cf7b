/*
 * Reads the chips over I2C, one-wire and the converter. NOT COMPILED HERE, NOT RUN ON HARDWARE.
 *
 * Commands and times are those of the data sheets; times from memory.
 */
#include "driver/i2c_master.h"
#include "esp_adc/adc_cali.h"
#include "esp_adc/adc_cali_scheme.h"
#include "esp_adc/adc_oneshot.h"
#include "freertos/FreeRTOS.h"
#include "freertos/task.h"
#include "onewire_bus.h"

#include "../../../portable/battery.h"
#include "esp_board.h"
#include "settings.h"

enum { SHT3X_ADDRESS = 0x44, BH1750_ADDRESS = 0x23, I2C_HZ = 50000, I2C_LIMIT_MS = 100 };

static i2c_master_dev_handle_t sht3x, bh1750;
static onewire_bus_handle_t onewire;
static adc_oneshot_unit_handle_t adc;
static adc_cali_handle_t calibration;

static void wait_ms(uint32_t ms)
{
    vTaskDelay(pdMS_TO_TICKS(ms) + 1);
}

static void start_i2c(void)
{
    const i2c_master_bus_config_t bus_config = {
        .i2c_port = -1, .sda_io_num = PIN_SDA, .scl_io_num = PIN_SCL,
        .clk_source = I2C_CLK_SRC_DEFAULT, .glitch_ignore_cnt = 7,
    };
    i2c_master_bus_handle_t bus;
    i2c_device_config_t device = {.dev_addr_length = I2C_ADDR_BIT_LEN_7, .scl_speed_hz = I2C_HZ};
    ESP_ERROR_CHECK(i2c_new_master_bus(&bus_config, &bus));
    device.device_address = SHT3X_ADDRESS;
    ESP_ERROR_CHECK(i2c_master_bus_add_device(bus, &device, &sht3x));
    device.device_address = BH1750_ADDRESS;
    ESP_ERROR_CHECK(i2c_master_bus_add_device(bus, &device, &bh1750));
}

static void start_battery(void)
{
    const adc_oneshot_unit_init_cfg_t unit = {.unit_id = ADC_UNIT_1};
    const adc_oneshot_chan_cfg_t channel = {.atten = ADC_ATTEN_DB_12, .bitwidth = ADC_BITWIDTH_DEFAULT};
    ESP_ERROR_CHECK(adc_oneshot_new_unit(&unit, &adc));
    ESP_ERROR_CHECK(adc_oneshot_config_channel(adc, BATTERY_CHANNEL, &channel));
#if ADC_CALI_SCHEME_LINE_FITTING_SUPPORTED
    const adc_cali_line_fitting_config_t line = {.unit_id = ADC_UNIT_1, .atten = ADC_ATTEN_DB_12};
    ESP_ERROR_CHECK(adc_cali_create_scheme_line_fitting(&line, &calibration));
#else
    const adc_cali_curve_fitting_config_t curve = {
        .unit_id = ADC_UNIT_1, .chan = BATTERY_CHANNEL, .atten = ADC_ATTEN_DB_12};
    ESP_ERROR_CHECK(adc_cali_create_scheme_curve_fitting(&curve, &calibration));
#endif
}

void chips_start(void)
{
    if (HAS_SHT3X || HAS_BH1750) {
        start_i2c();
    }
    if (HAS_DS18B20) {
        const onewire_bus_config_t bus = {.bus_gpio_num = PIN_DS18B20};
        const onewire_bus_rmt_config_t rmt = {.max_rx_bytes = 10};
        ESP_ERROR_CHECK(onewire_new_bus_rmt(&bus, &rmt, &onewire));
    }
    if (HAS_BATTERY) {
        start_battery();
    }
}

/* One measurement, high repeatability, no clock stretching: 0x2400, at most 15 ms. */
bool chips_read_sht3x(void *self, uint8_t bytes[TP_SHT3X_BYTES])
{
    const uint8_t measure[] = {0x24, 0x00};
    (void)self;
    if (i2c_master_transmit(sht3x, measure, sizeof measure, I2C_LIMIT_MS) != ESP_OK) {
        return false;
    }
    wait_ms(20);
    return i2c_master_receive(sht3x, bytes, TP_SHT3X_BYTES, I2C_LIMIT_MS) == ESP_OK;
}

/* Power on, one measurement of high resolution (0x20), at most 180 ms; then it switches itself off. */
bool chips_read_bh1750(void *self, uint8_t bytes[TP_BH1750_BYTES])
{
    const uint8_t power_on = 0x01, measure = 0x20;
    (void)self;
    if (i2c_master_transmit(bh1750, &power_on, 1, I2C_LIMIT_MS) != ESP_OK ||
        i2c_master_transmit(bh1750, &measure, 1, I2C_LIMIT_MS) != ESP_OK) {
        return false;
    }
    wait_ms(200);
    return i2c_master_receive(bh1750, bytes, TP_BH1750_BYTES, I2C_LIMIT_MS) == ESP_OK;
}

/* One chip on the wire: skip ROM (0xCC), convert (0x44), 750 ms at 12 bit, read the scratchpad (0xBE). */
bool chips_read_ds18b20(void *self, uint8_t bytes[TP_DS18B20_BYTES])
{
    const uint8_t convert[] = {0xCC, 0x44}, read[] = {0xCC, 0xBE};
    (void)self;
    if (onewire_bus_reset(onewire) != ESP_OK || onewire_bus_write_bytes(onewire, convert, 2) != ESP_OK) {
        return false;
    }
    wait_ms(800);
    return onewire_bus_reset(onewire) == ESP_OK && onewire_bus_write_bytes(onewire, read, 2) == ESP_OK &&
           onewire_bus_read_bytes(onewire, bytes, TP_DS18B20_BYTES) == ESP_OK;
}

bool chips_read_battery_mv(void *self, uint16_t *mv)
{
    int measured_mv;
    (void)self;
    if (adc_oneshot_get_calibrated_result(adc, calibration, BATTERY_CHANNEL, &measured_mv) != ESP_OK ||
        measured_mv < 0) {
        return false;
    }
    *mv = tp_divider_mv((uint16_t)measured_mv, BATTERY_UPPER_OHM, BATTERY_LOWER_OHM);
    return true;
}
