#include "clock.h"

/* Whether the two clocks agree on the time between the newest instant and this one. */
static bool fits(const struct tp_clock *clock, uint32_t uptime_s, uint32_t utc_s)
{
    if (uptime_s <= clock->uptime_s || utc_s <= clock->utc_s) {
        return false;
    }
    uint32_t own_s = uptime_s - clock->uptime_s;
    uint32_t true_s = utc_s - clock->utc_s;
    uint32_t apart_s = own_s > true_s ? own_s - true_s : true_s - own_s;
    return apart_s <= 2 + true_s / 10;
}

bool tp_clock_sync(struct tp_clock *clock, uint32_t uptime_s, uint32_t utc_s)
{
    if (utc_s < TP_EARLIEST_UTC_S) {
        return false;
    }
    bool keeps_earlier = clock->known > 0 && fits(clock, uptime_s, utc_s);
    if (keeps_earlier) {
        clock->earlier_uptime_s = clock->uptime_s;
        clock->earlier_utc_s = clock->utc_s;
    }
    clock->known = keeps_earlier ? 2 : 1;
    clock->uptime_s = uptime_s;
    clock->utc_s = utc_s;
    return true;
}

uint32_t tp_clock_utc_s(const struct tp_clock *clock, uint32_t uptime_s)
{
    bool between = clock->known == 2 && uptime_s > clock->earlier_uptime_s && uptime_s < clock->uptime_s;
    if (!between) {
        return clock->utc_s + (uptime_s - clock->uptime_s); /* unsigned: also right for times before */
    }
    uint64_t own_s = clock->uptime_s - clock->earlier_uptime_s;
    uint64_t true_s = clock->utc_s - clock->earlier_utc_s;
    uint64_t since_s = uptime_s - clock->earlier_uptime_s;
    return clock->earlier_utc_s + (uint32_t)((since_s * true_s + own_s / 2) / own_s);
}
