/* Encodes readings as the JSON that the service reads (src/docs/sensors.md). */
#ifndef TP_PAYLOAD_H
#define TP_PAYLOAD_H

#include <stddef.h>

#include "ring.h"

/*
 * No reading is longer: {"temperature":-327.68,"humidity":655.35,"light":429496729.5,
 * "battery":65.535,"at":4294967295} and a comma.
 */
enum { TP_READING_CHARS = 96 };

/*
 * Encodes the oldest readings of the ring: one as an object, more as an array, the oldest first.
 *
 * now_s: uptime now, for the age of readings whose time is not UTC
 * most: readings in one payload, at least 1
 * Returns how many readings the payload holds: as many as there are and fit into the buffer.
 */
uint16_t tp_payload_encode(struct tp_ring *ring, uint32_t now_s, uint16_t most, char *buffer, size_t size);

#endif
