package tepidarium.ingest;

import java.time.Duration;
import java.time.Instant;

/**
 * One press of a button beside a container, as an MQTT message reported it.
 *
 * @param topic topic of the message
 * @param container container id from the topic; not checked against the known containers
 * @param time planned length of the opening, above 0 to 240 minutes; zero ends the opening
 * @param at when the message arrived
 */
public record ButtonPress(String topic, String container, Duration time, Instant at) {}
