/* Text, payload, clock and retry. */
#include <stddef.h>
#include <string.h>

#include "../portable/clock.h"
#include "../portable/payload.h"
#include "../portable/retry.h"
#include "../portable/text.h"
#include "test.h"

static const char *fixed(int64_t number, unsigned decimals)
{
    static char buffer[40];
    struct tp_text text = tp_text_in(buffer, sizeof buffer);
    tp_text_fixed(&text, number, decimals);
    return buffer;
}

static void numbers_as_text(void)
{
    TEXT("0", fixed(0, 0));
    TEXT("0.00", fixed(0, 2));
    TEXT("0.05", fixed(5, 2));
    TEXT("-0.05", fixed(-5, 2));
    TEXT("30.20", fixed(3020, 2));
    TEXT("-45.00", fixed(-4500, 2));
    TEXT("4294967295", fixed(UINT32_MAX, 0));
    TEXT("-9223372036.854775808", fixed(INT64_MIN, 9));
}

static void text_that_does_not_fit_is_left_out(void)
{
    char buffer[6];
    struct tp_text text = tp_text_in(buffer, sizeof buffer);
    tp_text_add(&text, "12345");
    CHECK(!text.full);
    tp_text_add(&text, "6");
    CHECK(text.full);
    TEXT("12345", buffer);
}

static struct tp_reading all_values(uint32_t utc_s)
{
    struct tp_reading reading = {utc_s, 0, 3020, 9610, 3910, TP_HAS_ANY | TP_TIME_IS_UTC};
    return reading;
}

/* The example of src/docs/sensors.md; 1772344800 is 2026-03-01T06:00:00Z. */
static void one_reading_is_an_object(void)
{
    static struct tp_ring ring;
    char payload[200];
    struct tp_reading reading = all_values(1772344800);
    tp_ring_push(&ring, &reading);
    EQUAL(1, tp_payload_encode(&ring, 99, 20, payload, sizeof payload));
    TEXT("{\"temperature\":30.20,\"humidity\":96.10,\"light\":0.0,\"battery\":3.910,\"at\":1772344800}", payload);
}

static void absent_values_are_left_out_and_age_stands_for_a_missing_clock(void)
{
    static struct tp_ring ring;
    char payload[200];
    struct tp_reading light = {40, 25, 0, 0, 0, TP_HAS_LIGHT};
    struct tp_reading cold = {95, 0, -1, 0, 0, TP_HAS_TEMPERATURE};
    tp_ring_push(&ring, &light);
    tp_ring_push(&ring, &cold);
    EQUAL(2, tp_payload_encode(&ring, 100, 20, payload, sizeof payload));
    TEXT("[{\"light\":2.5,\"age\":60},{\"temperature\":-0.01,\"age\":5}]", payload);
}

static void a_batch_has_a_limit_and_fits_its_buffer(void)
{
    static struct tp_ring ring;
    char payload[4 * TP_READING_CHARS];
    struct tp_reading longest = {UINT32_MAX, UINT32_MAX, INT16_MIN, UINT16_MAX, UINT16_MAX,
                                 TP_HAS_ANY | TP_TIME_IS_UTC};
    for (int i = 0; i < 10; i++) {
        tp_ring_push(&ring, &longest);
    }
    EQUAL(2, tp_payload_encode(&ring, 0, 2, payload, sizeof payload));
    for (size_t size = 1; size <= sizeof payload; size++) {
        uint16_t number = tp_payload_encode(&ring, 0, 20, payload, size);
        CHECK(strlen(payload) < size);
        CHECK(number == 0 || payload[strlen(payload) - 1] == ']');
        CHECK(number > 0 || size <= TP_READING_CHARS + 2);
    }
}

static void a_full_ring_gives_up_its_oldest(void)
{
    static struct tp_ring ring;
    for (uint32_t i = 0; i < TP_RING_CAPACITY + 3; i++) {
        struct tp_reading reading = all_values(i);
        tp_ring_push(&ring, &reading);
    }
    EQUAL(TP_RING_CAPACITY, ring.count);
    EQUAL(3, ring.lost);
    EQUAL(3, tp_ring_at(&ring, 0)->time_s);
    EQUAL(TP_RING_CAPACITY + 2, tp_ring_at(&ring, TP_RING_CAPACITY - 1)->time_s);
    tp_ring_drop(&ring, 200);
    EQUAL(203, tp_ring_at(&ring, 0)->time_s);
}

static void one_instant_sets_the_clock(void)
{
    struct tp_clock clock = {0, 0, 0, 0, 0};
    CHECK(!tp_clock_sync(&clock, 500, TP_EARLIEST_UTC_S - 1));
    EQUAL(0, clock.known);
    CHECK(tp_clock_sync(&clock, 500, 1772344800));
    EQUAL(1772344800, tp_clock_utc_s(&clock, 500));
    EQUAL(1772344800 - 400, tp_clock_utc_s(&clock, 100));
    EQUAL(1772344800 + 60, tp_clock_utc_s(&clock, 560));
}

/* The node's clock is 5 % slow: 950 s of its own are 1,000 s. */
static void drift_between_two_instants_is_corrected(void)
{
    struct tp_clock clock = {0, 0, 0, 0, 0};
    tp_clock_sync(&clock, 1000, 1772344800);
    tp_clock_sync(&clock, 1950, 1772345800);
    EQUAL(2, clock.known);
    EQUAL(1772345300, tp_clock_utc_s(&clock, 1475));
    EQUAL(1772344801, tp_clock_utc_s(&clock, 1001));
    EQUAL(1772345799, tp_clock_utc_s(&clock, 1949));
}

static void a_clock_that_was_set_anew_forgets_the_earlier_instant(void)
{
    struct tp_clock clock = {0, 0, 0, 0, 0};
    tp_clock_sync(&clock, 1000, 1772344800);
    tp_clock_sync(&clock, 2000, 1772344800 + 3600);
    EQUAL(1, clock.known);
    EQUAL(1772344800 + 3600 - 500, tp_clock_utc_s(&clock, 1500));
}

static void delays_double_up_to_their_limit(void)
{
    struct tp_retry retry = tp_retry_start(7);
    uint32_t expected = 60;
    for (int i = 0; i < 40; i++) {
        uint32_t delay = tp_retry_failed(&retry, 60, 1800);
        CHECK(delay >= expected && delay <= expected + expected / 4);
        expected = expected * 2 < 1800 ? expected * 2 : 1800;
    }
    tp_retry_succeeded(&retry);
    CHECK(tp_retry_failed(&retry, 60, 1800) <= 75);
}

static void nodes_with_other_seeds_retry_at_other_times(void)
{
    struct tp_retry one = tp_retry_start(1), other = tp_retry_start(2);
    int different = 0;
    for (int i = 0; i < 20; i++) {
        different += tp_retry_failed(&one, 600, 600) != tp_retry_failed(&other, 600, 600);
    }
    CHECK(different > 15);
}

void parts_tests(void)
{
    RUN(numbers_as_text);
    RUN(text_that_does_not_fit_is_left_out);
    RUN(one_reading_is_an_object);
    RUN(absent_values_are_left_out_and_age_stands_for_a_missing_clock);
    RUN(a_batch_has_a_limit_and_fits_its_buffer);
    RUN(a_full_ring_gives_up_its_oldest);
    RUN(one_instant_sets_the_clock);
    RUN(drift_between_two_instants_is_corrected);
    RUN(a_clock_that_was_set_anew_forgets_the_earlier_instant);
    RUN(delays_double_up_to_their_limit);
    RUN(nodes_with_other_seeds_retry_at_other_times);
}
