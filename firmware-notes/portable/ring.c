#include "ring.h"

void tp_ring_push(struct tp_ring *ring, const struct tp_reading *reading)
{
    if (ring->count == TP_RING_CAPACITY) {
        tp_ring_drop(ring, 1);
        ring->lost++;
    }
    ring->count++;
    *tp_ring_at(ring, (uint16_t)(ring->count - 1)) = *reading;
}

struct tp_reading *tp_ring_at(struct tp_ring *ring, uint16_t index)
{
    return &ring->readings[((uint32_t)ring->first + index) % TP_RING_CAPACITY];
}

void tp_ring_drop(struct tp_ring *ring, uint16_t number)
{
    ring->first = (uint16_t)(((uint32_t)ring->first + number) % TP_RING_CAPACITY);
    ring->count = (uint16_t)(ring->count - number);
}

void tp_ring_give_up_uptimes(struct tp_ring *ring)
{
    uint16_t kept = 0;
    for (uint16_t i = 0; i < ring->count; i++) {
        struct tp_reading *reading = tp_ring_at(ring, i);
        if (reading->bits & TP_TIME_IS_UTC) {
            *tp_ring_at(ring, kept++) = *reading;
        }
    }
    ring->lost += (uint32_t)(ring->count - kept);
    ring->count = kept;
}
