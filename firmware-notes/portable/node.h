/* The node itself: measures, keeps the readings, and sends them when it is time. */
#ifndef TP_NODE_H
#define TP_NODE_H

#include <stddef.h>

#include "battery.h"
#include "board.h"
#include "memory.h"

struct tp_settings {
    const char *topic;         /* tepidarium/<sensor> */
    uint32_t measure_every_s;  /* at least 1 */
    uint32_t send_every_s;     /* a multiple of measure_every_s */
    uint32_t retry_first_s;    /* delay after the first failure to send; doubles */
    uint32_t retry_max_s;      /* longest delay after failures */
    uint16_t readings_a_batch; /* in one message, at least 1 */
    uint16_t battery_empty_mv; /* below it the radio stays off; 0: never */
    const struct tp_battery_curve *battery; /* for the estimate in the serial output; NULL: none */
};

struct tp_node {
    const struct tp_settings *settings;
    const struct tp_board *board;
    struct tp_memory *memory;
    char *payload; /* buffer for one message */
    size_t payload_size;
};

/* Checks the memory after power-on or sleep. Call it once at each start of the program. */
void tp_node_start(const struct tp_node *node, uint32_t seed);

/*
 * One wake: measures if it is time, then sends if it is time. Returns the seconds to sleep until the
 * next measurement.
 *
 * A reading leaves the memory only after the broker's PUBACK. Its UTC is fixed, and saved, before it
 * is sent for the first time. A repeat after a lost PUBACK therefore carries the same time, and the
 * service stores it once. Only where no time server answers do readings go out with their age; such a
 * repeat may be stored twice.
 */
uint32_t tp_node_wake(const struct tp_node *node);

#endif
