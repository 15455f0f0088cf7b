/* The decoders against the worked values of the chips' data sheets. */
#include <stddef.h>
#include <string.h>

#include "../portable/battery.h"
#include "../portable/chips.h"
#include "../portable/crc.h"
#include "test.h"

/*
 * BEEF -> 92: example in the SHT3x-DIS data sheet (polynomial 0x31, first value 0xFF). The others: the
 * same CRC, computed a second time by long division of polynomials.
 */
static void sht3x_checksums(void)
{
    EQUAL(0x92, tp_crc8_sht3x((const uint8_t[]){0xBE, 0xEF}, 2));
    EQUAL(0x81, tp_crc8_sht3x((const uint8_t[]){0x00, 0x00}, 2));
    EQUAL(0x93, tp_crc8_sht3x((const uint8_t[]){0x66, 0x66}, 2));
    EQUAL(0xA2, tp_crc8_sht3x((const uint8_t[]){0x80, 0x00}, 2));
}

/* Maxim application note 27: ROM 02 1C B8 01 00 00 00 -> A2; power-on scratchpad -> 1C (values from memory). */
static void onewire_checksums(void)
{
    EQUAL(0xA2, tp_crc8_onewire((const uint8_t[]){0x02, 0x1C, 0xB8, 0x01, 0, 0, 0}, 7));
    EQUAL(0x1C, tp_crc8_onewire((const uint8_t[]){0x50, 0x05, 0x4B, 0x46, 0x7F, 0xFF, 0x0C, 0x10}, 8));
}

/* Check value of CRC-32 of IEEE 802.3 (value from memory). */
static void crc32_of_the_standard(void)
{
    EQUAL(0xCBF43926, tp_crc32((const uint8_t *)"123456789", 9));
}

static void sht3x_bytes(uint16_t temperature, uint16_t humidity, uint8_t bytes[TP_SHT3X_BYTES])
{
    bytes[0] = (uint8_t)(temperature >> 8);
    bytes[1] = (uint8_t)temperature;
    bytes[2] = tp_crc8_sht3x(bytes, 2);
    bytes[3] = (uint8_t)(humidity >> 8);
    bytes[4] = (uint8_t)humidity;
    bytes[5] = tp_crc8_sht3x(bytes + 3, 2);
}

/* SHT3x-DIS data sheet, section 4.13: T = -45 + 175 S / 65535, RH = 100 S / 65535. */
static void sht3x_values(void)
{
    static const struct {
        uint16_t raw;
        int32_t temperature, humidity;
    } rows[] = {
        {0x0000, -450000, 0}, {0x6666, 250000, 400000}, {0x8000, 425013, 500008}, {0xFFFF, 1300000, 1000000},
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        uint8_t bytes[TP_SHT3X_BYTES];
        int32_t temperature = 0, humidity = 0;
        sht3x_bytes(rows[i].raw, rows[i].raw, bytes);
        CHECK(tp_sht3x_decode(bytes, &temperature, &humidity));
        EQUAL(rows[i].temperature, temperature);
        EQUAL(rows[i].humidity, humidity);
    }
}

static void any_flipped_bit_of_an_sht3x_is_refused(void)
{
    for (int bit = 0; bit < 8 * TP_SHT3X_BYTES; bit++) {
        uint8_t bytes[TP_SHT3X_BYTES];
        int32_t temperature, humidity;
        sht3x_bytes(0x6D3A, 0xF5C3, bytes);
        bytes[bit / 8] ^= (uint8_t)(1 << bit % 8);
        CHECK(!tp_sht3x_decode(bytes, &temperature, &humidity));
    }
}

/* BH1750FVI data sheet: lux = count / 1.2; example 0x8390 is 28,067 lx (values from memory). */
static void bh1750_values(void)
{
    EQUAL(280667, tp_bh1750_decode((const uint8_t[]){0x83, 0x90}));
    EQUAL(0, tp_bh1750_decode((const uint8_t[]){0x00, 0x00}));
    EQUAL(8, tp_bh1750_decode((const uint8_t[]){0x00, 0x01}));
    EQUAL(546125, tp_bh1750_decode((const uint8_t[]){0xFF, 0xFF}));
}

static void ds18b20_bytes(uint16_t raw, uint8_t byte6, uint8_t bytes[TP_DS18B20_BYTES])
{
    const uint8_t start[8] = {(uint8_t)raw, (uint8_t)(raw >> 8), 0x4B, 0x46, 0x7F, 0xFF, byte6, 0x10};
    memcpy(bytes, start, sizeof start);
    bytes[8] = tp_crc8_onewire(bytes, 8);
}

/* DS18B20 data sheet, table 1, temperature and digital output (rows from memory). */
static void ds18b20_values(void)
{
    static const struct {
        uint16_t raw;
        int32_t temperature;
    } rows[] = {
        {0x07D0, 1250000}, {0x0550, 850000}, {0x0191, 250625}, {0x00A2, 101250}, {0x0008, 5000},
        {0x0000, 0}, {0xFFF8, -5000}, {0xFF5E, -101250}, {0xFE6F, -250625}, {0xFC90, -550000},
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        uint8_t bytes[TP_DS18B20_BYTES];
        int32_t temperature = 0;
        ds18b20_bytes(rows[i].raw, 0x02, bytes);
        EQUAL(TP_DS18B20_OK, tp_ds18b20_decode(bytes, &temperature));
        EQUAL(rows[i].temperature, temperature);
    }
}

static void ds18b20_power_on_value(void)
{
    uint8_t bytes[TP_DS18B20_BYTES];
    int32_t temperature = 0;
    ds18b20_bytes(0x0550, 0x0C, bytes);
    EQUAL(TP_DS18B20_POWER_ON, tp_ds18b20_decode(bytes, &temperature));
    EQUAL(850000, temperature);
}

/* Nine zeros have a matching checksum: a data line shorted to ground. */
static void ds18b20_without_a_chip(void)
{
    uint8_t bytes[TP_DS18B20_BYTES];
    int32_t temperature;
    memset(bytes, 0xFF, sizeof bytes);
    EQUAL(TP_DS18B20_BAD, tp_ds18b20_decode(bytes, &temperature));
    memset(bytes, 0, sizeof bytes);
    EQUAL(TP_DS18B20_BAD, tp_ds18b20_decode(bytes, &temperature));
    ds18b20_bytes(0x0191, 0x02, bytes);
    bytes[0] ^= 1;
    EQUAL(TP_DS18B20_BAD, tp_ds18b20_decode(bytes, &temperature));
}

/* 2 V behind 100 k over 100 k are 4 V. */
static void battery_voltage_and_charge(void)
{
    EQUAL(4000, tp_divider_mv(2000, 100000, 100000));
    EQUAL(3909, tp_divider_mv(1173, 470000, 201500));
    EQUAL(UINT16_MAX, tp_divider_mv(65000, 3000000, 1000));
    EQUAL(0, tp_battery_percent(3000, &tp_lithium_cell));
    EQUAL(20, tp_battery_percent(3650, &tp_lithium_cell));
    EQUAL(100, tp_battery_percent(4250, &tp_lithium_cell));
    EQUAL(50, tp_battery_percent(3600, &tp_three_alkaline));
    uint8_t before = 0;
    for (uint16_t mv = 2500; mv < 5000; mv++) {
        CHECK(tp_battery_percent(mv, &tp_three_alkaline) >= before);
        before = tp_battery_percent(mv, &tp_three_alkaline);
    }
}

void chips_tests(void)
{
    RUN(sht3x_checksums);
    RUN(onewire_checksums);
    RUN(crc32_of_the_standard);
    RUN(sht3x_values);
    RUN(any_flipped_bit_of_an_sht3x_is_refused);
    RUN(bh1750_values);
    RUN(ds18b20_values);
    RUN(ds18b20_power_on_value);
    RUN(ds18b20_without_a_chip);
    RUN(battery_voltage_and_charge);
}
