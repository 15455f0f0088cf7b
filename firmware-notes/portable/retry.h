/* The delay before the next attempt to send: exponential backoff with jitter. */
#ifndef TP_RETRY_H
#define TP_RETRY_H

#include <stdint.h>

struct tp_retry {
    uint32_t failures; /* in a row */
    uint32_t random;   /* state of the generator, never 0 */
};

/* Starts with no failures. Nodes with different seeds do not retry in step. */
struct tp_retry tp_retry_start(uint32_t seed);

/*
 * Counts a failure. Returns the delay in seconds: first_s, doubled with each further failure, up to
 * max_s, plus up to a quarter of that at random.
 */
uint32_t tp_retry_failed(struct tp_retry *retry, uint32_t first_s, uint32_t max_s);

/* Forgets the failures after a success. */
void tp_retry_succeeded(struct tp_retry *retry);

#endif
