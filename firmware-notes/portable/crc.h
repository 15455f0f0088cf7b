/* Checksums of the chips and of the memory that survives sleep. */
#ifndef TP_CRC_H
#define TP_CRC_H

#include <stddef.h>
#include <stdint.h>

/* CRC-8 of the SHT3x: polynomial 0x31, first value 0xFF, highest bit first (SHT3x-DIS data sheet). */
uint8_t tp_crc8_sht3x(const uint8_t *bytes, size_t count);

/* CRC-8 of one-wire chips: x^8+x^5+x^4+1, first value 0, lowest bit first (Maxim application note 27). */
uint8_t tp_crc8_onewire(const uint8_t *bytes, size_t count);

/*
 * CRC-32 of IEEE 802.3: polynomial 0x04C11DB7, lowest bit first. "123456789" gives 0xCBF43926 (value
 * from memory). Bit by bit: it needs no table, and 4 kB take about 33,000 steps.
 */
uint32_t tp_crc32(const uint8_t *bytes, size_t count);

#endif
