/* Keeps the newest readings until the broker has acknowledged them. */
#ifndef TP_RING_H
#define TP_RING_H

#include "reading.h"

/* 240 readings take 3,840 bytes: 20 hours at one in 5 min. A smaller board sets less. */
#ifndef TP_RING_CAPACITY
#define TP_RING_CAPACITY 240
#endif

struct tp_ring {
    uint16_t first; /* index of the oldest reading */
    uint16_t count;
    uint32_t lost; /* readings that were given up unsent: overwritten, or their time is not known */
    struct tp_reading readings[TP_RING_CAPACITY];
};

/* Adds a reading. A full ring gives up its oldest one and counts it as lost. */
void tp_ring_push(struct tp_ring *ring, const struct tp_reading *reading);

/* The reading at an index counted from the oldest, which must be less than the count. */
struct tp_reading *tp_ring_at(struct tp_ring *ring, uint16_t index);

/* Removes the oldest readings after they were acknowledged; at most the count. */
void tp_ring_drop(struct tp_ring *ring, uint16_t number);

/* Gives up the readings whose time is uptime, and counts them as lost. */
void tp_ring_give_up_uptimes(struct tp_ring *ring);

#endif
