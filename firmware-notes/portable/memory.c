#include "memory.h"

#include <stddef.h>

#include "crc.h"

#define LAYOUT (0x54500100u + TP_RING_CAPACITY)

static uint32_t checksum(const struct tp_memory *memory)
{
    const size_t start = offsetof(struct tp_memory, uptime_s);
    return tp_crc32((const uint8_t *)memory + start, sizeof *memory - start);
}

/* The indices are checked too, as a wrong one would reach outside of the ring. */
static bool is_valid(const struct tp_memory *memory)
{
    return memory->layout == LAYOUT && memory->crc == checksum(memory) &&
           memory->ring.first < TP_RING_CAPACITY && memory->ring.count <= TP_RING_CAPACITY;
}

static void clear(struct tp_memory *memory)
{
    uint8_t *bytes = (uint8_t *)memory;
    for (size_t i = 0; i < sizeof *memory; i++) {
        bytes[i] = 0;
    }
    memory->layout = LAYOUT;
}

static void start_at_once(struct tp_memory *memory, uint32_t uptime_s)
{
    memory->next_measure_s = uptime_s;
    memory->next_send_s = uptime_s;
}

enum tp_memory_state tp_memory_open(struct tp_memory *memory, uint32_t uptime_s, uint32_t seed)
{
    enum tp_memory_state state = TP_MEMORY_KEPT;
    if (!is_valid(memory)) {
        clear(memory);
        memory->retry = tp_retry_start(seed);
        start_at_once(memory, uptime_s);
        state = TP_MEMORY_NEW;
    } else if (uptime_s < memory->uptime_s) {
        tp_ring_give_up_uptimes(&memory->ring);
        memory->clock.known = 0;
        start_at_once(memory, uptime_s);
        state = TP_MEMORY_CLOCK_RESTARTED;
    }
    memory->uptime_s = uptime_s;
    tp_memory_seal(memory);
    return state;
}

void tp_memory_seal(struct tp_memory *memory)
{
    memory->crc = checksum(memory);
}
