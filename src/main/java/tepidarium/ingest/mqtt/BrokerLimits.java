package tepidarium.ingest.mqtt;

import java.time.Duration;
import java.util.function.Function;
import org.jspecify.annotations.Nullable;

/**
 * Limits of the embedded broker. Each topic, subscription and retained message takes some of its
 * memory, and each message that waits for a subscriber some of the disk.
 *
 * @param packetBytes the largest packet that is taken, in bytes
 * @param connections so many clients may be connected
 * @param topics so many topics may be known at once
 * @param topicIdle a topic is forgotten after this long, and known again with its next message
 * @param subscriptions so many subscriptions of clients may exist, those of absent ones included
 * @param pairs so many pairs of a topic and a subscription may exist; the broker keeps about 200
 *     bytes for each pair that matches
 * @param retained so many topics may have a retained message
 * @param sessionExpiry the session of an absent client is forgotten after this long; at most 24
 *     days
 * @param sessionBytes so many bytes may wait for one client, then they are deleted
 * @param whyNotNew says why messages to a new topic are refused; null when they are taken
 */
public record BrokerLimits(
    int packetBytes,
    int connections,
    int topics,
    Duration topicIdle,
    int subscriptions,
    long pairs,
    int retained,
    Duration sessionExpiry,
    long sessionBytes,
    Function<String, @Nullable String> whyNotNew) {
  /** Topics of one sensor: one with all its quantities, and one for each of four quantities. */
  private static final int TOPICS_OF_SENSOR = 5;

  private static final int OTHERS = 1_000;

  /** All pairs together take at most a tenth of the heap. */
  private static final int HEAP_BYTES_FOR_PAIR = 2_000;

  /**
   * The limits for so many sensors.
   *
   * @param payloadBytes the largest payload that is read; one of twice the size is still taken, so
   *     that it can be rejected with its topic and a reason
   */
  public static BrokerLimits of(
      int payloadBytes,
      int sensors,
      Duration sessionExpiry,
      long sessionBytes,
      Function<String, @Nullable String> whyNotNew) {
    return new BrokerLimits(
        2 * payloadBytes,
        2 * sensors + OTHERS,
        TOPICS_OF_SENSOR * sensors + OTHERS,
        Duration.ofHours(1),
        OTHERS,
        Runtime.getRuntime().maxMemory() / HEAP_BYTES_FOR_PAIR,
        2 * OTHERS,
        sessionExpiry,
        sessionBytes,
        whyNotNew);
  }
}
