/*
 * The board layer: the functions that a board provides to the portable part.
 *
 * Each gets `self`, the board's own data. A function for a chip that is not fitted is NULL.
 */
#ifndef TP_BOARD_H
#define TP_BOARD_H

#include <stdbool.h>
#include <stdint.h>

#include "chips.h"
#include "memory.h"

struct tp_board {
    void *self;

    /* Seconds since power-on, of a clock that goes on during sleep. */
    uint32_t (*uptime_s)(void *self);

    /* Each measures once and stores the bytes that the chip sent; false if it did not answer. */
    bool (*read_sht3x)(void *self, uint8_t bytes[TP_SHT3X_BYTES]);
    bool (*read_bh1750)(void *self, uint8_t bytes[TP_BH1750_BYTES]);
    bool (*read_ds18b20)(void *self, uint8_t bytes[TP_DS18B20_BYTES]);
    bool (*read_battery_mv)(void *self, uint16_t *mv);

    /* Joins the network and connects to the broker; false if that failed. May take 10 to 20 s. */
    bool (*connect)(void *self);
    /* Asks a time server for UTC while connected; false if it is not known. */
    bool (*read_utc_s)(void *self, uint32_t *utc_s);
    /* Publishes with quality of service 1, not retained. True only after the broker's PUBACK. */
    bool (*publish)(void *self, const char *topic, const char *payload);
    /* Ends the connection and switches the radio off; also called after a failure. */
    void (*disconnect)(void *self);

    /* Copies the memory to where it survives sleep; NULL if it lies there already. */
    void (*save)(void *self, const struct tp_memory *memory);
    /* Writes one line to the serial port, for the person who builds the node. */
    void (*log)(void *self, const char *line);
};

#endif
