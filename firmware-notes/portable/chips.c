#include "chips.h"

#include "crc.h"

static uint32_t big_endian(const uint8_t *bytes)
{
    return ((uint32_t)bytes[0] << 8) | bytes[1];
}

/* span * raw / 65535, rounded. The product needs 37 bits. */
static int32_t share(uint32_t span, uint32_t raw)
{
    return (int32_t)(((uint64_t)span * raw + 32767) / 65535);
}

bool tp_sht3x_decode(const uint8_t bytes[TP_SHT3X_BYTES], int32_t *temperature, int32_t *humidity)
{
    if (tp_crc8_sht3x(bytes, 2) != bytes[2] || tp_crc8_sht3x(bytes + 3, 2) != bytes[5]) {
        return false;
    }
    *temperature = share(1750000, big_endian(bytes)) - 450000;
    *humidity = share(1000000, big_endian(bytes + 3));
    return true;
}

uint32_t tp_bh1750_decode(const uint8_t bytes[TP_BH1750_BYTES])
{
    /* 0.1 lx: count * 10 / 1.2 = count * 25 / 3, rounded */
    return (big_endian(bytes) * 25 + 1) / 3;
}

enum tp_ds18b20_result tp_ds18b20_decode(const uint8_t bytes[TP_DS18B20_BYTES], int32_t *temperature)
{
    if (tp_crc8_onewire(bytes, 8) != bytes[8] || (bytes[4] & 0x1F) != 0x1F) {
        return TP_DS18B20_BAD;
    }
    uint32_t raw = ((uint32_t)bytes[1] << 8) | bytes[0];
    int32_t sixteenths = (raw & 0x8000u) ? (int32_t)raw - 0x10000 : (int32_t)raw;
    *temperature = sixteenths * 625;
    return raw == 0x0550 && bytes[6] == 0x0C ? TP_DS18B20_POWER_ON : TP_DS18B20_OK;
}
