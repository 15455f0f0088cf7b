/*
 * Converts the node's uptime to UTC.
 *
 * A node measures with the clock that goes on during sleep. That clock has no date, and it may be wrong
 * by several percent (RC oscillator; value from memory). The node learns UTC when it is connected.
 * The clock keeps the two newest such instants. Times between them lie on the straight line, so the
 * backlog of an outage gets the right times in spite of the drift.
 */
#ifndef TP_CLOCK_H
#define TP_CLOCK_H

#include <stdbool.h>
#include <stdint.h>

struct tp_clock {
    uint32_t known; /* instants known: 0, 1 or 2 */
    uint32_t uptime_s, utc_s;
    uint32_t earlier_uptime_s, earlier_utc_s;
};

/* 2010-01-01T00:00:00Z: the service believes no clock before it. */
#define TP_EARLIEST_UTC_S 1262304000u

/*
 * Notes that it is utc_s now. Returns false for a time before 2010, and changes nothing. An earlier
 * instant that does not fit is forgotten: clocks more than 10 % and 2 s apart.
 */
bool tp_clock_sync(struct tp_clock *clock, uint32_t uptime_s, uint32_t utc_s);

/* UTC in seconds since 1970 of an uptime. At least one instant must be known. */
uint32_t tp_clock_utc_s(const struct tp_clock *clock, uint32_t uptime_s);

#endif
