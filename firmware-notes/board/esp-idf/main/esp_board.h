/* The parts of the board layer for ESP-IDF. NOT COMPILED HERE, NOT RUN ON HARDWARE. */
#ifndef ESP_BOARD_H
#define ESP_BOARD_H

#include "../../../portable/node.h"

void chips_start(void);
bool chips_read_sht3x(void *self, uint8_t bytes[TP_SHT3X_BYTES]);
bool chips_read_bh1750(void *self, uint8_t bytes[TP_BH1750_BYTES]);
bool chips_read_ds18b20(void *self, uint8_t bytes[TP_DS18B20_BYTES]);
bool chips_read_battery_mv(void *self, uint16_t *mv);

bool link_connect(void *self);
bool link_read_utc_s(void *self, uint32_t *utc_s);
bool link_publish(void *self, const char *topic, const char *payload);
void link_disconnect(void *self);

#endif
