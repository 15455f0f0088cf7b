#include "payload.h"

#include "text.h"

static void add_field(struct tp_text *text, const char *name)
{
    tp_text_add(text, text->buffer[text->length - 1] == '{' ? "\"" : ",\"");
    tp_text_add(text, name);
    tp_text_add(text, "\":");
}

static void add_reading(struct tp_text *text, const struct tp_reading *reading, uint32_t now_s)
{
    tp_text_add(text, "{");
    if (reading->bits & TP_HAS_TEMPERATURE) {
        add_field(text, "temperature");
        tp_text_fixed(text, reading->temperature_c100, 2);
    }
    if (reading->bits & TP_HAS_HUMIDITY) {
        add_field(text, "humidity");
        tp_text_fixed(text, reading->humidity_c100, 2);
    }
    if (reading->bits & TP_HAS_LIGHT) {
        add_field(text, "light");
        tp_text_fixed(text, reading->light_dlx, 1);
    }
    if (reading->bits & TP_HAS_BATTERY) {
        add_field(text, "battery");
        tp_text_fixed(text, reading->battery_mv, 3);
    }
    if (reading->bits & TP_TIME_IS_UTC) {
        add_field(text, "at");
        tp_text_number(text, reading->time_s);
    } else {
        add_field(text, "age");
        tp_text_number(text, now_s - reading->time_s);
    }
    tp_text_add(text, "}");
}

uint16_t tp_payload_encode(struct tp_ring *ring, uint32_t now_s, uint16_t most, char *buffer, size_t size)
{
    struct tp_text text = tp_text_in(buffer, size);
    uint16_t wanted = ring->count < most ? ring->count : most;
    uint16_t number = 0;
    if (wanted > 1) {
        tp_text_add(&text, "[");
    }
    while (number < wanted && size - text.length > TP_READING_CHARS + 1) {
        if (number > 0) {
            tp_text_add(&text, ",");
        }
        add_reading(&text, tp_ring_at(ring, number), now_s);
        number++;
    }
    if (wanted > 1) {
        tp_text_add(&text, "]");
    }
    return number;
}
