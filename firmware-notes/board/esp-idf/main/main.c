/*
 * The node on an ESP32: one wake, then deep sleep. NOT COMPILED HERE, NOT RUN ON HARDWARE.
 *
 * Written after the documentation of ESP-IDF 5. Check each call against your version.
 */
#include <stdio.h>

#include "driver/gpio.h"
#include "esp_attr.h"
#include "esp_random.h"
#include "esp_sleep.h"
#include "nvs_flash.h"

#include "esp_board.h"
#include "settings.h"

uint64_t esp_rtc_get_time_us(void); /* declared in a header whose name depends on the chip */

/* Not initialised at a start: it keeps its content in deep sleep, and holds garbage after power-on. */
static RTC_NOINIT_ATTR struct tp_memory memory;
static char payload[2048];

static uint32_t uptime_s(void *self)
{
    (void)self;
    return (uint32_t)(esp_rtc_get_time_us() / 1000000);
}

static void log_line(void *self, const char *line)
{
    printf("%lu %s\n", (unsigned long)uptime_s(self), line);
}

static const struct tp_settings settings = {
    .topic = TOPIC,
    .measure_every_s = MEASURE_EVERY_S,
    .send_every_s = SEND_EVERY_S,
    .retry_first_s = MEASURE_EVERY_S,
    .retry_max_s = 1800,
    .readings_a_batch = 20,
    .battery_empty_mv = HAS_BATTERY ? BATTERY_EMPTY_MV : 0,
    .battery = &BATTERY_CURVE,
};

static const struct tp_board board = {
    .uptime_s = uptime_s,
    .read_sht3x = HAS_SHT3X ? chips_read_sht3x : NULL,
    .read_bh1750 = HAS_BH1750 ? chips_read_bh1750 : NULL,
    .read_ds18b20 = HAS_DS18B20 ? chips_read_ds18b20 : NULL,
    .read_battery_mv = HAS_BATTERY ? chips_read_battery_mv : NULL,
    .connect = link_connect,
    .read_utc_s = link_read_utc_s,
    .publish = link_publish,
    .disconnect = link_disconnect,
    .log = log_line,
};

void app_main(void)
{
    const struct tp_node node = {&settings, &board, &memory, payload, sizeof payload};
    gpio_set_direction(PIN_LED, GPIO_MODE_OUTPUT);
    gpio_set_level(PIN_LED, 0);
    nvs_flash_init(); /* Wi-Fi keeps its calibration there */
    chips_start();
    tp_node_start(&node, esp_random());
    uint32_t sleep_s = tp_node_wake(&node);
    fflush(stdout);
    esp_deep_sleep((uint64_t)sleep_s * 1000000);
}
