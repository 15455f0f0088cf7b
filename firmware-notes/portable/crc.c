#include "crc.h"

uint8_t tp_crc8_sht3x(const uint8_t *bytes, size_t count)
{
    uint8_t crc = 0xFF;
    for (size_t i = 0; i < count; i++) {
        crc ^= bytes[i];
        for (int bit = 0; bit < 8; bit++) {
            crc = (uint8_t)((crc << 1) ^ ((crc & 0x80) ? 0x31 : 0));
        }
    }
    return crc;
}

uint8_t tp_crc8_onewire(const uint8_t *bytes, size_t count)
{
    uint8_t crc = 0;
    for (size_t i = 0; i < count; i++) {
        crc ^= bytes[i];
        for (int bit = 0; bit < 8; bit++) {
            crc = (uint8_t)((crc >> 1) ^ ((crc & 1) ? 0x8C : 0));
        }
    }
    return crc;
}

uint32_t tp_crc32(const uint8_t *bytes, size_t count)
{
    uint32_t crc = 0xFFFFFFFFu;
    for (size_t i = 0; i < count; i++) {
        crc ^= bytes[i];
        for (int bit = 0; bit < 8; bit++) {
            crc = (crc >> 1) ^ ((crc & 1) ? 0xEDB88320u : 0);
        }
    }
    return crc ^ 0xFFFFFFFFu;
}
