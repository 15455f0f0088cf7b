/** From a message's bytes to durable readings: decoding, hand-over, counters. */
@NullMarked
package tepidarium.ingest;

import org.jspecify.annotations.NullMarked;
