/* The memory that survives sleep: garbage is noticed, a kept state is not lost. */
#include <stddef.h>
#include <string.h>

#include "../portable/memory.h"
#include "test.h"

static struct tp_memory memory;

static void fill_with_three_readings(void)
{
    memset(&memory, 0xA5, sizeof memory);
    tp_memory_open(&memory, 100, 1);
    for (uint32_t i = 0; i < 3; i++) {
        struct tp_reading reading = {1772344800 + i, 0, 3000, 0, 0, TP_HAS_TEMPERATURE | TP_TIME_IS_UTC};
        tp_ring_push(&memory.ring, &reading);
    }
    tp_memory_seal(&memory);
}

static void garbage_after_power_on_is_noticed(void)
{
    static const uint8_t patterns[] = {0x00, 0xFF, 0xA5, 0x55};
    for (size_t i = 0; i < sizeof patterns; i++) {
        memset(&memory, patterns[i], sizeof memory);
        EQUAL(TP_MEMORY_NEW, tp_memory_open(&memory, 5, 1));
        EQUAL(0, memory.ring.count);
        EQUAL(0, memory.ring.lost);
        EQUAL(0, memory.clock.known);
        EQUAL(5, memory.next_measure_s);
    }
}

static void any_flipped_bit_is_noticed(void)
{
    for (size_t bit = 0; bit < 8 * sizeof memory; bit += 7) {
        fill_with_three_readings();
        ((uint8_t *)&memory)[bit / 8] ^= (uint8_t)(1 << bit % 8);
        EQUAL(TP_MEMORY_NEW, tp_memory_open(&memory, 200, 1));
    }
}

static void a_change_without_a_seal_is_noticed(void)
{
    fill_with_three_readings();
    memory.ring.count = 2;
    EQUAL(TP_MEMORY_NEW, tp_memory_open(&memory, 200, 1));
}

static void a_kept_memory_is_used(void)
{
    fill_with_three_readings();
    EQUAL(TP_MEMORY_KEPT, tp_memory_open(&memory, 100, 1));
    EQUAL(TP_MEMORY_KEPT, tp_memory_open(&memory, 400, 1));
    EQUAL(3, memory.ring.count);
    EQUAL(1772344802, tp_ring_at(&memory.ring, 2)->time_s);
}

/* Readings whose time is an uptime of before cannot be placed any more; those in UTC can. */
static void a_restarted_clock_gives_up_unknown_times(void)
{
    fill_with_three_readings();
    struct tp_reading unknown = {90, 0, 3100, 0, 0, TP_HAS_TEMPERATURE};
    tp_ring_push(&memory.ring, &unknown);
    tp_clock_sync(&memory.clock, 95, 1772344900);
    tp_memory_seal(&memory);
    EQUAL(TP_MEMORY_CLOCK_RESTARTED, tp_memory_open(&memory, 2, 1));
    EQUAL(3, memory.ring.count);
    EQUAL(1, memory.ring.lost);
    EQUAL(0, memory.clock.known);
    EQUAL(2, memory.next_measure_s);
}

/* What a board must provide: 8 kB in an ESP32, 512 bytes in an ESP8266 with a ring of 26. */
static void its_size_is_known(void)
{
    EQUAL(16, sizeof(struct tp_reading));
    EQUAL(56 + 16 * TP_RING_CAPACITY, sizeof(struct tp_memory));
}

void memory_tests(void)
{
    RUN(garbage_after_power_on_is_noticed);
    RUN(any_flipped_bit_is_noticed);
    RUN(a_change_without_a_seal_is_noticed);
    RUN(a_kept_memory_is_used);
    RUN(a_restarted_clock_gives_up_unknown_times);
    RUN(its_size_is_known);
}
