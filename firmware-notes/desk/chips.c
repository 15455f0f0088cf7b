/* Simulated chips: a heat mat that switches on and off, damp air, darkness, a battery that runs down. */
#include "../portable/crc.h"
#include "desk.h"

enum { MAT_CYCLE_S = 2400 };

static uint32_t next_random(struct desk *desk)
{
    desk->random = desk->random * 1664525u + 1013904223u; /* Numerical Recipes, 2nd edition, section 7.1 */
    return desk->random >> 8;
}

/* Temperature in 0.001 degC: from 29 up to 31 and down again, with noise of 0.03. */
static uint32_t temperature_mdegc(struct desk *desk)
{
    uint32_t phase_s = desk_uptime_s(desk) % MAT_CYCLE_S;
    uint32_t half_s = MAT_CYCLE_S / 2;
    uint32_t up_s = phase_s < half_s ? phase_s : MAT_CYCLE_S - phase_s;
    return 29000 + up_s * 2000 / half_s + next_random(desk) % 31;
}

static void store_with_checksum(struct desk *desk, uint32_t raw, uint8_t bytes[3])
{
    bytes[0] = (uint8_t)(raw >> 8);
    bytes[1] = (uint8_t)raw;
    bytes[2] = tp_crc8_sht3x(bytes, 2);
    if (next_random(desk) % 100 < desk->options.bad_percent) {
        bytes[2] ^= 0x10;
    }
}

bool chips_read_sht3x(void *self, uint8_t bytes[TP_SHT3X_BYTES])
{
    struct desk *desk = self;
    uint32_t humidity_mpercent = 96000 + next_random(desk) % 1500;
    uint64_t above_mdegc = temperature_mdegc(desk) + 45000;
    store_with_checksum(desk, (uint32_t)(above_mdegc * 65535 / 175000), bytes);
    store_with_checksum(desk, (uint32_t)((uint64_t)humidity_mpercent * 65535 / 100000), bytes + 3);
    return true;
}

bool chips_read_bh1750(void *self, uint8_t bytes[TP_BH1750_BYTES])
{
    bytes[0] = 0;
    bytes[1] = (uint8_t)(next_random(self) % 3); /* the dark count */
    return true;
}

bool chips_read_ds18b20(void *self, uint8_t bytes[TP_DS18B20_BYTES])
{
    struct desk *desk = self;
    uint32_t raw = temperature_mdegc(desk) * 16 / 1000;
    const uint8_t start[8] = {(uint8_t)raw, (uint8_t)(raw >> 8), 0x4B, 0x46, 0x7F, 0xFF, 0x02, 0x10};
    for (int i = 0; i < 8; i++) {
        bytes[i] = start[i];
    }
    bytes[8] = tp_crc8_onewire(bytes, 8);
    if (next_random(desk) % 100 < desk->options.bad_percent) {
        bytes[8] ^= 0x10;
    }
    return true;
}

/* From 4.1 V down by 1 mV in 20 min. */
bool chips_read_battery_mv(void *self, uint16_t *mv)
{
    uint32_t used = desk_uptime_s(self) / 1200;
    *mv = (uint16_t)(used < 900 ? 4100 - used : 3200);
    return true;
}
