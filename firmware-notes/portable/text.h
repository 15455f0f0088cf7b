/* Writes text into a buffer of fixed size, without printf and without floating point. */
#ifndef TP_TEXT_H
#define TP_TEXT_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

struct tp_text {
    char *buffer;
    size_t size;   /* of the buffer, with the closing zero byte */
    size_t length; /* written so far */
    bool full;     /* something did not fit; the text ends before it */
};

/* Starts an empty text. The size must be at least 1. */
struct tp_text tp_text_in(char *buffer, size_t size);

/* Appends a string, all of it or nothing. */
void tp_text_add(struct tp_text *text, const char *string);

/* Appends a whole number. */
void tp_text_number(struct tp_text *text, uint32_t number);

/* Appends number / 10^decimals, such as 3021 with 2 decimals as 30.21. At most 9 decimals. */
void tp_text_fixed(struct tp_text *text, int64_t number, unsigned decimals);

#endif
