/*
 * Decodes the bytes that the chips send into values.
 *
 * Temperatures are in 0.0001 degC, humidity in 0.0001 %, light in 0.1 lx. All are integers: small
 * chips have no floating-point unit.
 */
#ifndef TP_CHIPS_H
#define TP_CHIPS_H

#include <stdbool.h>
#include <stdint.h>

enum { TP_SHT3X_BYTES = 6, TP_BH1750_BYTES = 2, TP_DS18B20_BYTES = 9 };

/*
 * SHT3x: temperature (2 bytes, checksum), humidity (2 bytes, checksum). With the 16-bit numbers S:
 * T = -45 + 175 S / 65535 degC, RH = 100 S / 65535 % (SHT3x-DIS data sheet, section 4.13).
 * Returns false, and stores nothing, when a checksum is wrong.
 */
bool tp_sht3x_decode(const uint8_t bytes[TP_SHT3X_BYTES], int32_t *temperature, int32_t *humidity);

/*
 * BH1750: count / 1.2 lx at its default measurement time (BH1750FVI data sheet; 0x8390 is 28,067 lx).
 * The chip sends no checksum.
 */
uint32_t tp_bh1750_decode(const uint8_t bytes[TP_BH1750_BYTES]);

enum tp_ds18b20_result {
    TP_DS18B20_OK,
    TP_DS18B20_BAD,     /* wrong checksum, or no chip: all ones, or all zeros with a matching checksum */
    TP_DS18B20_POWER_ON /* 85 degC with the power-on pattern: it has probably not measured yet */
};

/*
 * DS18B20: the 9 bytes of its scratchpad; temperature in 1/16 degC, two's complement, lowest byte
 * first (DS18B20 data sheet, table 1). The five low bits of byte 4 are always 1, which tells a data
 * line shorted to ground from a chip. Byte 6 is 0x0C after power-on (value from memory).
 * Stores the temperature unless the result is TP_DS18B20_BAD.
 */
enum tp_ds18b20_result tp_ds18b20_decode(const uint8_t bytes[TP_DS18B20_BYTES], int32_t *temperature);

#endif
