/* One reading, as it waits in the memory that survives sleep: 16 bytes. */
#ifndef TP_READING_H
#define TP_READING_H

#include <stdint.h>

enum tp_reading_bits {
    TP_HAS_TEMPERATURE = 1,
    TP_HAS_HUMIDITY = 2,
    TP_HAS_LIGHT = 4,
    TP_HAS_BATTERY = 8,
    TP_HAS_ANY = 15,
    TP_TIME_IS_UTC = 16 /* else the time is the node's own uptime */
};

struct tp_reading {
    uint32_t time_s;          /* uptime of the node; UTC since 1970 once TP_TIME_IS_UTC is set */
    uint32_t light_dlx;       /* 0.1 lx */
    int16_t temperature_c100; /* 0.01 degC */
    uint16_t humidity_c100;   /* 0.01 % */
    uint16_t battery_mv;
    uint16_t bits; /* of tp_reading_bits: a value whose bit is not set is absent */
};

#endif
