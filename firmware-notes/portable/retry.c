#include "retry.h"

struct tp_retry tp_retry_start(uint32_t seed)
{
    struct tp_retry retry = {0, seed == 0 ? 1 : seed};
    return retry;
}

/* Xorshift with the shifts 13, 17, 5 (Marsaglia, Journal of Statistical Software 8(14), 2003). */
static uint32_t next_random(uint32_t state)
{
    state ^= state << 13;
    state ^= state >> 17;
    return state ^ (state << 5);
}

uint32_t tp_retry_failed(struct tp_retry *retry, uint32_t first_s, uint32_t max_s)
{
    uint32_t delay_s = first_s;
    for (uint32_t i = 0; i < retry->failures && delay_s < max_s; i++) {
        delay_s *= 2;
    }
    if (delay_s > max_s) {
        delay_s = max_s;
    }
    retry->failures++;
    retry->random = next_random(retry->random);
    return delay_s + retry->random % (delay_s / 4 + 1);
}

void tp_retry_succeeded(struct tp_retry *retry)
{
    retry->failures = 0;
}
