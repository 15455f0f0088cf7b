/* The node with a board of the test: a network that fails, a program that stops anywhere, a clock that drifts. */
#include <stddef.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "../portable/crc.h"
#include "../portable/node.h"
#include "test.h"

enum { MOST = 2000, UTC_START_S = 1772344800 };

static const struct tp_settings settings = {"tepidarium/jar-1", 300, 900, 60, 1800, 20, 3000, &tp_three_alkaline};

/* A board with a broker that notes what it received. */
static struct {
    struct tp_memory memory, saved;
    char payload[2048];
    uint32_t uptime_s;
    uint32_t slow_percent; /* by how much the node's clock is slow */
    bool network, broker, time_server, chip, good_checksum;
    bool resets_at_connect; /* the radio's current pulls the supply down */
    uint16_t battery_mv;
    int lose_pubacks, failed_publishes, connects;
    int saves_left; /* until the program stops; negative: never */
    uint32_t stopped_at_s;
    int taken[MOST / 2], received[MOST];   /* temperature of each reading */
    uint32_t at[MOST];                     /* UTC of each received reading; 0: it came with an age */
    int measured, taken_count, received_count, messages;
    char log[400];
} board;

static bool stopped(void)
{
    return board.saves_left == 0;
}

static uint32_t uptime_s(void *self)
{
    (void)self;
    return board.uptime_s;
}

/* Each measurement has another temperature: its number in steps of 0.01 degC. */
static bool read_sht3x(void *self, uint8_t bytes[TP_SHT3X_BYTES])
{
    (void)self;
    uint32_t raw = (uint32_t)(((board.measured++ + 4500) * 65535 + 8750) / 17500);
    bytes[0] = bytes[3] = (uint8_t)(raw >> 8);
    bytes[1] = bytes[4] = (uint8_t)raw;
    bytes[2] = bytes[5] = (uint8_t)(tp_crc8_sht3x(bytes, 2) ^ (board.good_checksum ? 0 : 1));
    return board.chip;
}

static bool read_battery_mv(void *self, uint16_t *mv)
{
    (void)self;
    *mv = board.battery_mv;
    return true;
}

static bool connect(void *self)
{
    (void)self;
    board.connects++;
    if (board.resets_at_connect) {
        board.saves_left = 0;
    }
    return board.network && !stopped();
}

static bool read_utc_s(void *self, uint32_t *utc_s)
{
    (void)self;
    *utc_s = UTC_START_S + board.uptime_s * 100 / (100 - board.slow_percent);
    return board.time_server;
}

static void note_received(const char *payload)
{
    board.messages++;
    for (const char *at = strstr(payload, "\"temperature\":"); at; at = strstr(at + 1, "\"temperature\":")) {
        const char *time = strstr(at, "\"at\":");
        const char *end = strchr(at, '}');
        board.received[board.received_count] = (int)(strtod(at + 14, NULL) * 100 + (at[14] == '-' ? -0.5 : 0.5));
        board.at[board.received_count] = time && time < end ? (uint32_t)strtoul(time + 5, NULL, 10) : 0;
        board.received_count++;
    }
}

static bool publish(void *self, const char *topic, const char *payload)
{
    (void)self;
    TEXT("tepidarium/jar-1", topic);
    if (stopped() || !board.broker) {
        board.failed_publishes++;
        return false;
    }
    note_received(payload);
    if (board.lose_pubacks > 0) {
        board.lose_pubacks--;
        return false;
    }
    return true;
}

static void disconnect(void *self)
{
    (void)self;
}

static void save(void *self, const struct tp_memory *memory)
{
    (void)self;
    if (stopped()) {
        return;
    }
    board.saved = *memory;
    if (board.saves_left > 0) {
        board.saves_left--;
        board.stopped_at_s = board.uptime_s;
    }
}

static void log_line(void *self, const char *line)
{
    (void)self;
    if (!stopped()) {
        snprintf(board.log, sizeof board.log, "%s", line);
        if (strncmp(line, "reading: temperature ", 21) == 0) {
            board.taken[board.taken_count++] = (int)(strtod(line + 21, NULL) * 100 + 0.5);
        }
    }
}

static const struct tp_board functions = {
    &board, uptime_s, read_sht3x, NULL, NULL, read_battery_mv, connect, read_utc_s, publish, disconnect, save, log_line,
};

static struct tp_node node = {&settings, &functions, &board.memory, board.payload, sizeof board.payload};

static void power_on(void)
{
    memset(&board, 0, sizeof board);
    memset(&board.memory, 0x5A, sizeof board.memory);
    board.network = board.broker = board.time_server = board.chip = board.good_checksum = true;
    board.battery_mv = 3910;
    board.saves_left = -1;
    tp_node_start(&node, 42);
}

/* Lets the node live for a time, as a board would: wake, sleep, wake. */
static void live(uint32_t seconds)
{
    for (uint32_t end_s = board.uptime_s + seconds; board.uptime_s < end_s;) {
        uint32_t sleep_s = tp_node_wake(&node);
        CHECK(sleep_s >= 1 && sleep_s <= settings.measure_every_s);
        board.uptime_s += sleep_s;
    }
}

/* How often the broker received a reading; its time must be the same each time, and of no other reading. */
static int times_received(int temperature)
{
    int times = 0;
    uint32_t at = 0;
    for (int i = 0; i < board.received_count; i++) {
        if (board.received[i] == temperature) {
            CHECK(times == 0 || at == board.at[i]);
            at = board.at[i];
            times++;
        }
    }
    for (int i = 0; at > 0 && i < board.received_count; i++) {
        CHECK(board.at[i] != at || board.received[i] == temperature);
    }
    return times;
}

/* All but those that wait for the next time to send, and the oldest that a full ring gave up. */
static void expect_each_once(void)
{
    int lost = (int)board.memory.ring.lost;
    int sent = board.taken_count - board.memory.ring.count;
    CHECK(sent - lost >= 3);
    for (int i = lost; i < sent; i++) {
        EQUAL(1, times_received(board.taken[i]));
    }
    EQUAL(sent - lost, board.received_count);
}

static void sends_every_third_reading_in_a_batch(void)
{
    power_on();
    live(300 * 13);
    EQUAL(13, board.taken_count);
    EQUAL(5, board.messages);
    expect_each_once();
    EQUAL(UTC_START_S + 3600, board.at[12]);
}

/* 3.91 V lies between 3.6 V (50 %) and 4.2 V (85 %) of three alkaline cells. */
static void logs_each_reading(void)
{
    power_on();
    board.network = false;
    tp_node_wake(&node);
    CHECK(strncmp(board.log, "not sent: next try after ", 25) == 0);
    board.uptime_s = 300;
    board.battery_mv = 2999;
    tp_node_wake(&node);
    TEXT("reading: temperature 0.01 degC humidity 25.72 % battery 2.999 V, about 9 %; waiting 2", board.log);
}

static void sends_its_backlog_after_an_outage(void)
{
    power_on();
    live(900);
    board.network = false;
    live(900 * 20);
    EQUAL(1, board.messages);
    board.network = true;
    live(900 * 4);
    expect_each_once();
    EQUAL(0, board.memory.ring.lost);
    for (int i = 1; i < board.received_count; i++) {
        EQUAL(300, board.at[i] - board.at[i - 1]);
    }
}

static void waits_longer_after_each_failure(void)
{
    power_on();
    board.network = false;
    live(24 * 3600);
    int tries = board.connects;
    CHECK(tries >= 24 * 3600 / (1800 + 450 + 300) && tries <= 24 * 3600 / 1800 + 5);
    board.network = true;
    live(3600);
    EQUAL(0, board.memory.retry.failures);
}

static void a_repeat_after_a_lost_puback_has_the_same_time(void)
{
    power_on();
    board.slow_percent = 5;
    live(300);
    board.lose_pubacks = 3;
    live(900 * 12);
    EQUAL(0, board.lose_pubacks);
    CHECK(board.received_count > board.taken_count);
    for (int i = 0; i < board.taken_count - board.memory.ring.count; i++) {
        CHECK(times_received(board.taken[i]) >= 1);
    }
}

/* 8 hours away with a clock that is 5 % slow: without correction the error would be 25 min. */
static void a_backlog_has_the_right_times_in_spite_of_drift(void)
{
    power_on();
    board.slow_percent = 5;
    live(900);
    board.network = false;
    live(8 * 3600);
    board.network = true;
    live(3600);
    for (int i = 0; i < board.received_count; i++) {
        int64_t right = UTC_START_S + (int64_t)300 * i * 100 / 95;
        CHECK(board.at[i] >= right - 1 && board.at[i] <= right + 1);
    }
    CHECK(board.received_count > 90);
}

static void without_a_time_server_readings_carry_their_age(void)
{
    power_on();
    board.time_server = false;
    live(900 * 3);
    expect_each_once();
    EQUAL(0, board.at[3]);
    board.time_server = true;
    live(900 * 2);
    EQUAL(UTC_START_S + 300 * (board.received_count - 1), board.at[board.received_count - 1]);
}

/*
 * The program stops after its n-th save, for each n, while PUBACKs are lost. It starts again at once from what
 * was saved.
 * Each reading that it had logged reaches the broker, and always with the same time.
 */
static void a_stop_at_any_moment_loses_nothing(void)
{
    for (int n = 1; n < 40; n++) {
        power_on();
        live(300 * (uint32_t)(n % 5));
        board.lose_pubacks = n % 3;
        board.saves_left = n;
        live(300 * 40);
        CHECK(stopped());
        board.saves_left = -1;
        board.memory = board.saved;
        board.uptime_s = board.stopped_at_s;
        tp_node_start(&node, 42);
        CHECK(strncmp(board.log, "memory: kept;", 13) == 0);
        live(900 * 8);
        for (int i = 0; i < board.taken_count - board.memory.ring.count; i++) {
            CHECK(times_received(board.taken[i]) >= 1);
        }
    }
}

/* Weak cells: each start of the radio resets the board. It must not try at every reading for ever. */
static void a_reset_by_the_radio_counts_as_a_failure(void)
{
    power_on();
    board.resets_at_connect = true;
    while (board.uptime_s < 24 * 3600) {
        uint32_t sleep_s = tp_node_wake(&node);
        if (stopped()) {
            board.saves_left = -1;
            board.memory = board.saved;
            tp_node_start(&node, 42);
        } else {
            board.uptime_s += sleep_s;
        }
    }
    CHECK(board.connects > 24 && board.connects <= 24 * 3600 / 1800 + 5);
    board.resets_at_connect = false;
    live(3600);
    expect_each_once();
}

static void a_chip_that_fails_leaves_its_values_out(void)
{
    power_on();
    board.chip = false;
    live(300);
    TEXT("{\"battery\":3.910,\"at\":1772344800}", board.payload);
    board.chip = true;
    board.good_checksum = false;
    live(300);
    EQUAL(TP_HAS_BATTERY, tp_ring_at(&board.memory.ring, 0)->bits & TP_HAS_ANY);
}

static void an_empty_battery_keeps_the_radio_off(void)
{
    power_on();
    board.battery_mv = 2999;
    live(3600);
    EQUAL(0, board.connects);
    EQUAL(12, board.memory.ring.count);
    board.battery_mv = 3600;
    live(900);
    expect_each_once();
}

static void a_long_outage_keeps_the_newest_readings(void)
{
    power_on();
    board.network = false;
    live(300 * (TP_RING_CAPACITY + 10));
    EQUAL(10, board.memory.ring.lost);
    EQUAL(10 * 300, tp_ring_at(&board.memory.ring, 0)->time_s);
    board.network = true;
    live(3600);
    CHECK(board.received_count > TP_RING_CAPACITY);
    expect_each_once();
}

void node_tests(void)
{
    RUN(sends_every_third_reading_in_a_batch);
    RUN(logs_each_reading);
    RUN(sends_its_backlog_after_an_outage);
    RUN(waits_longer_after_each_failure);
    RUN(a_repeat_after_a_lost_puback_has_the_same_time);
    RUN(a_backlog_has_the_right_times_in_spite_of_drift);
    RUN(without_a_time_server_readings_carry_their_age);
    RUN(a_stop_at_any_moment_loses_nothing);
    RUN(a_reset_by_the_radio_counts_as_a_failure);
    RUN(a_chip_that_fails_leaves_its_values_out);
    RUN(an_empty_battery_keeps_the_radio_off);
    RUN(a_long_outage_keeps_the_newest_readings);
}
