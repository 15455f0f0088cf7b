#include "measure.h"

enum { TRIES = 2 };

/* From 0.0001 to 0.01, rounded half away from zero. */
static int32_t hundredths(int32_t value)
{
    return (value + (value < 0 ? -50 : 50)) / 100;
}

static void measure_sht3x(const struct tp_board *board, struct tp_reading *reading)
{
    const char *problem = "sht3x: no answer";
    for (int i = 0; i < TRIES; i++) {
        uint8_t bytes[TP_SHT3X_BYTES];
        int32_t temperature, humidity;
        if (!board->read_sht3x(board->self, bytes)) {
            continue;
        }
        if (tp_sht3x_decode(bytes, &temperature, &humidity)) {
            reading->temperature_c100 = (int16_t)hundredths(temperature);
            reading->humidity_c100 = (uint16_t)hundredths(humidity);
            reading->bits |= TP_HAS_TEMPERATURE | TP_HAS_HUMIDITY;
            return;
        }
        problem = "sht3x: wrong checksum";
    }
    board->log(board->self, problem);
}

static void measure_bh1750(const struct tp_board *board, struct tp_reading *reading)
{
    uint8_t bytes[TP_BH1750_BYTES];
    if (board->read_bh1750(board->self, bytes)) {
        reading->light_dlx = tp_bh1750_decode(bytes);
        reading->bits |= TP_HAS_LIGHT;
    } else {
        board->log(board->self, "bh1750: no answer");
    }
}

static void measure_ds18b20(const struct tp_board *board, struct tp_reading *reading)
{
    const char *problem = "ds18b20: no answer";
    for (int i = 0; i < TRIES; i++) {
        uint8_t bytes[TP_DS18B20_BYTES];
        int32_t temperature;
        if (!board->read_ds18b20(board->self, bytes)) {
            continue;
        }
        enum tp_ds18b20_result result = tp_ds18b20_decode(bytes, &temperature);
        if (result == TP_DS18B20_BAD) {
            problem = "ds18b20: wrong checksum";
            continue;
        }
        reading->temperature_c100 = (int16_t)hundredths(temperature);
        reading->bits |= TP_HAS_TEMPERATURE;
        if (result == TP_DS18B20_OK) {
            return;
        }
        problem = "ds18b20: power-on value";
    }
    board->log(board->self, problem);
}

void tp_measure(const struct tp_board *board, struct tp_reading *reading)
{
    if (board->read_sht3x) {
        measure_sht3x(board, reading);
    }
    if (board->read_bh1750) {
        measure_bh1750(board, reading);
    }
    if (board->read_ds18b20) {
        measure_ds18b20(board, reading);
    }
    if (board->read_battery_mv && board->read_battery_mv(board->self, &reading->battery_mv)) {
        reading->bits |= TP_HAS_BATTERY;
    }
}
