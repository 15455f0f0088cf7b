#include "text.h"

struct tp_text tp_text_in(char *buffer, size_t size)
{
    struct tp_text text = {buffer, size, 0, false};
    buffer[0] = '\0';
    return text;
}

void tp_text_add(struct tp_text *text, const char *string)
{
    size_t added = 0;
    while (string[added] != '\0') {
        added++;
    }
    if (text->full || added >= text->size - text->length) {
        text->full = true;
        return;
    }
    for (size_t i = 0; i <= added; i++) {
        text->buffer[text->length + i] = string[i];
    }
    text->length += added;
}

void tp_text_number(struct tp_text *text, uint32_t number)
{
    tp_text_fixed(text, number, 0);
}

void tp_text_fixed(struct tp_text *text, int64_t number, unsigned decimals)
{
    char digits[32]; /* a sign, 19 digits, a point, and zeros in front of a small fraction */
    size_t at = sizeof digits - 1;
    uint64_t rest = number < 0 ? (uint64_t)0 - (uint64_t)number : (uint64_t)number;
    digits[at] = '\0';
    for (unsigned place = 0; place <= decimals || rest > 0; place++) {
        if (place == decimals && decimals > 0) {
            digits[--at] = '.';
        }
        digits[--at] = (char)('0' + rest % 10);
        rest /= 10;
    }
    if (number < 0) {
        digits[--at] = '-';
    }
    tp_text_add(text, digits + at);
}
