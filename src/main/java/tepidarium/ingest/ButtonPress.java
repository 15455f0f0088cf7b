package tepidarium.ingest;

import java.time.Duration;
import java.time.Instant;

/**
 * Somebody pressed a button beside a container.
 *
 * @param topic of the message
 * @param container what the topic calls it; whether there is such a container is not known here
 * @param time for how long it is being opened, above 0 to 240 minutes; zero says that it has been
 *     closed
 * @param at when the message arrived
 */
public record ButtonPress(String topic, String container, Duration time, Instant at) {}
