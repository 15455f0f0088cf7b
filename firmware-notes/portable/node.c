#include "node.h"

#include "measure.h"
#include "payload.h"
#include "text.h"

enum { LINE_CHARS = 160 };

static uint32_t uptime_s(const struct tp_node *node)
{
    return node->board->uptime_s(node->board->self);
}

static void log_text(const struct tp_node *node, const struct tp_text *text)
{
    node->board->log(node->board->self, text->buffer);
}

static void save(const struct tp_node *node)
{
    tp_memory_seal(node->memory);
    if (node->board->save) {
        node->board->save(node->board->self, node->memory);
    }
}

static void add_waiting(struct tp_text *text, const struct tp_ring *ring)
{
    tp_text_add(text, "; waiting ");
    tp_text_number(text, ring->count);
    if (ring->lost > 0) {
        tp_text_add(text, ", lost ");
        tp_text_number(text, ring->lost);
    }
}

void tp_node_start(const struct tp_node *node, uint32_t seed)
{
    static const char *const words[] = {"kept", "empty after power-on", "kept, clock restarted"};
    enum tp_memory_state state = tp_memory_open(node->memory, uptime_s(node), seed);
    char line[LINE_CHARS];
    struct tp_text text = tp_text_in(line, sizeof line);
    tp_text_add(&text, "memory: ");
    tp_text_add(&text, words[state]);
    add_waiting(&text, &node->memory->ring);
    log_text(node, &text);
    save(node);
}

static void add_value(struct tp_text *text, const char *name, int64_t value, unsigned decimals, const char *unit)
{
    tp_text_add(text, name);
    tp_text_fixed(text, value, decimals);
    tp_text_add(text, unit);
}

static void log_reading(const struct tp_node *node, const struct tp_reading *reading)
{
    char line[LINE_CHARS];
    struct tp_text text = tp_text_in(line, sizeof line);
    tp_text_add(&text, "reading:");
    if (reading->bits & TP_HAS_TEMPERATURE) {
        add_value(&text, " temperature ", reading->temperature_c100, 2, " degC");
    }
    if (reading->bits & TP_HAS_HUMIDITY) {
        add_value(&text, " humidity ", reading->humidity_c100, 2, " %");
    }
    if (reading->bits & TP_HAS_LIGHT) {
        add_value(&text, " light ", reading->light_dlx, 1, " lx");
    }
    if (reading->bits & TP_HAS_BATTERY) {
        add_value(&text, " battery ", reading->battery_mv, 3, " V");
        if (node->settings->battery) {
            add_value(&text, ", about ", tp_battery_percent(reading->battery_mv, node->settings->battery), 0, " %");
        }
    }
    add_waiting(&text, &node->memory->ring);
    log_text(node, &text);
}

static void measure(const struct tp_node *node, uint32_t now_s)
{
    struct tp_reading reading = {now_s, 0, 0, 0, 0, 0};
    tp_measure(node->board, &reading);
    if ((reading.bits & TP_HAS_ANY) == 0) {
        return;
    }
    tp_ring_push(&node->memory->ring, &reading);
    save(node);
    log_reading(node, &reading);
}

/* Gives the waiting readings their UTC, if that is known. It stays the same from then on. */
static void fix_times(const struct tp_node *node)
{
    struct tp_memory *memory = node->memory;
    uint32_t utc_s;
    uint32_t now_s = uptime_s(node);
    if (!node->board->read_utc_s(node->board->self, &utc_s) || !tp_clock_sync(&memory->clock, now_s, utc_s)) {
        node->board->log(node->board->self, "clock: no time server answered");
    }
    for (uint16_t i = 0; memory->clock.known > 0 && i < memory->ring.count; i++) {
        struct tp_reading *reading = tp_ring_at(&memory->ring, i);
        if (!(reading->bits & TP_TIME_IS_UTC)) {
            reading->time_s = tp_clock_utc_s(&memory->clock, reading->time_s);
            reading->bits |= TP_TIME_IS_UTC;
        }
    }
    save(node);
}

static bool send_batch(const struct tp_node *node)
{
    struct tp_ring *ring = &node->memory->ring;
    uint16_t number = tp_payload_encode(
        ring, uptime_s(node), node->settings->readings_a_batch, node->payload, node->payload_size);
    if (number == 0 || !node->board->publish(node->board->self, node->settings->topic, node->payload)) {
        return false;
    }
    tp_ring_drop(ring, number);
    save(node);
    char line[LINE_CHARS];
    struct tp_text text = tp_text_in(line, sizeof line);
    tp_text_add(&text, "sent: ");
    tp_text_number(&text, number);
    add_waiting(&text, ring);
    log_text(node, &text);
    return true;
}

static bool send_all(const struct tp_node *node)
{
    bool good = node->board->connect(node->board->self);
    if (good) {
        fix_times(node);
    }
    while (good && node->memory->ring.count > 0) {
        good = send_batch(node);
    }
    node->board->disconnect(node->board->self);
    return good;
}

static void log_failure(const struct tp_node *node, uint32_t delay_s)
{
    char line[LINE_CHARS];
    struct tp_text text = tp_text_in(line, sizeof line);
    tp_text_add(&text, "not sent: next try after ");
    tp_text_number(&text, delay_s);
    tp_text_add(&text, " s");
    add_waiting(&text, &node->memory->ring);
    log_text(node, &text);
}

/*
 * Sends, and sets the time of the next attempt, counted from the wake. The attempt is saved as a failure
 * before it begins: with weak cells the radio's current may reset the board.
 */
static void send(const struct tp_node *node, uint32_t wake_s)
{
    const struct tp_settings *settings = node->settings;
    struct tp_memory *memory = node->memory;
    uint32_t delay_s = tp_retry_failed(&memory->retry, settings->retry_first_s, settings->retry_max_s);
    memory->next_send_s = wake_s + delay_s;
    save(node);
    if (send_all(node)) {
        tp_retry_succeeded(&memory->retry);
        memory->next_send_s = wake_s + settings->send_every_s;
    } else {
        log_failure(node, delay_s);
    }
}

static bool is_empty(const struct tp_node *node)
{
    uint16_t mv;
    return node->board->read_battery_mv && node->board->read_battery_mv(node->board->self, &mv) &&
           mv < node->settings->battery_empty_mv;
}

uint32_t tp_node_wake(const struct tp_node *node)
{
    struct tp_memory *memory = node->memory;
    uint32_t now_s = uptime_s(node);
    uint32_t every_s = node->settings->measure_every_s;
    if (now_s >= memory->next_measure_s) {
        uint32_t due_s = memory->next_measure_s;
        memory->next_measure_s = due_s + every_s > now_s ? due_s + every_s : now_s + every_s;
        measure(node, now_s); /* saves: a restart at once must not measure again at the same second */
        if (memory->ring.count > 0 && due_s >= memory->next_send_s && !is_empty(node)) {
            send(node, due_s);
        }
    }
    now_s = uptime_s(node);
    memory->uptime_s = now_s;
    save(node);
    return memory->next_measure_s > now_s ? memory->next_measure_s - now_s : 1;
}
