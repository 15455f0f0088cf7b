/*
 * Everything that survives sleep, with a checksum.
 *
 * It may lie in memory that keeps its content in deep sleep (RTC memory), or be copied there and back.
 * After power-on that memory holds garbage. The checksum tells garbage from a kept state.
 */
#ifndef TP_MEMORY_H
#define TP_MEMORY_H

#include "clock.h"
#include "retry.h"
#include "ring.h"

struct tp_memory {
    uint32_t layout; /* changes with the version of this struct and with the size of the ring */
    uint32_t crc;    /* CRC-32 of everything after it */
    uint32_t uptime_s;
    uint32_t next_measure_s, next_send_s; /* uptime */
    struct tp_clock clock;
    struct tp_retry retry;
    struct tp_ring ring;
};

enum tp_memory_state {
    TP_MEMORY_KEPT,
    TP_MEMORY_NEW,           /* it held garbage, and starts empty */
    TP_MEMORY_CLOCK_RESTARTED /* kept, but the uptime began anew: times not yet in UTC are unknown */
};

/*
 * Checks the memory at a wake and makes it usable.
 *
 * uptime_s: seconds since power-on, of the clock that goes on during sleep
 * seed: any number that differs between nodes
 */
enum tp_memory_state tp_memory_open(struct tp_memory *memory, uint32_t uptime_s, uint32_t seed);

/* Renews the checksum. Needed after each change: without it the next wake finds garbage. */
void tp_memory_seal(struct tp_memory *memory);

#endif
