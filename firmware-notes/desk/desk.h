/* A sensor on the desk: the whole node on a computer, with simulated chips and real MQTT. */
#ifndef DESK_H
#define DESK_H

#include <stdbool.h>
#include <stdint.h>

#include "../portable/node.h"

enum { MOST_CUTS = 100 };

struct options {
    const char *host, *user, *password, *name, *memory;
    int port;
    uint32_t every_s, send_every_s, retry_first_s, retry_max_s, answer_ms;
    uint32_t run_s;   /* 0: without end */
    uint32_t start_s; /* UTC at uptime 0 of a fast run; 0: so that it ends now */
    uint32_t seed, bad_percent;
    uint32_t slow_percent; /* by how much the clock of a fast run is slow */
    bool fast, probe, no_clock;
    int cuts;
    struct {
        uint32_t from_s, length_s;
    } cut[MOST_CUTS];
};

/* Reads the command line. Prints what is wrong, or the help, and ends the program where needed. */
struct options options_of(int count, char **words);

/* What stands in for the board. */
struct desk {
    struct options options;
    uint32_t began_s;   /* uptime at the start of this run */
    uint32_t fast_s;    /* uptime of a fast run: it jumps ahead in place of sleeping */
    uint32_t random;
    struct mosquitto *client;
    int connected, acknowledged; /* -1: not yet */
};

uint32_t desk_uptime_s(void *self);

/* Simulated chips: the bytes that real ones would send, with their checksums. */
bool chips_read_sht3x(void *self, uint8_t bytes[TP_SHT3X_BYTES]);
bool chips_read_bh1750(void *self, uint8_t bytes[TP_BH1750_BYTES]);
bool chips_read_ds18b20(void *self, uint8_t bytes[TP_DS18B20_BYTES]);
bool chips_read_battery_mv(void *self, uint16_t *mv);

/* The network and the broker, by libmosquitto. */
bool link_connect(void *self);
bool link_publish(void *self, const char *topic, const char *payload);
void link_disconnect(void *self);

/* The memory that survives sleep: a file in place of RTC memory. */
void kept_load(struct desk *desk, struct tp_memory *memory);
void kept_save(void *self, const struct tp_memory *memory);

#endif
