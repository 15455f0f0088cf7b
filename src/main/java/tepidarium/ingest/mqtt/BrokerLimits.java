package tepidarium.ingest.mqtt;

import com.sun.management.UnixOperatingSystemMXBean;
import java.lang.management.ManagementFactory;
import java.time.Duration;
import java.util.function.Function;
import org.jspecify.annotations.Nullable;

/**
 * Limits of the embedded broker. Each topic, subscription and retained message uses memory, and
 * each message that waits for a subscriber uses disk space.
 *
 * @param packetBytes largest accepted packet, in bytes
 * @param connections maximum number of connections to the ports for sensors
 * @param connectionsOfAddress maximum number of them from one address
 * @param topics maximum number of topics
 * @param topicIdle time without a message after which the broker deletes a topic; the next message
 *     creates it again
 * @param subscriptions maximum number of subscriptions, including those of absent clients
 * @param pairs maximum number of pairs of a topic and a subscription; the broker uses about 200
 *     bytes for each matching pair
 * @param retained maximum number of topics with a retained message
 * @param sessionExpiry time after which the session of an absent client is deleted; at most 24 days
 * @param sessionBytes maximum size of the messages that wait for one client, in bytes; above it,
 *     all of them are deleted
 * @param messagesPerSecond messages a second that are read from one client
 * @param bytesPerSecond bytes a second that are read from one client
 * @param whyNotNew returns why messages to a new topic are refused; null if they are accepted
 */
public record BrokerLimits(
    int packetBytes,
    int connections,
    int connectionsOfAddress,
    int topics,
    Duration topicIdle,
    int subscriptions,
    long pairs,
    int retained,
    Duration sessionExpiry,
    long sessionBytes,
    int messagesPerSecond,
    long bytesPerSecond,
    Function<String, @Nullable String> whyNotNew) {
  /** Assumed topics of one sensor: one for all its quantities, and four for single quantities. */
  private static final int TOPICS_OF_SENSOR = 5;

  /**
   * Open files that are left for others: up to 200 connections to the pages, the databases, the
   * broker's journal and the libraries.
   */
  private static final int OTHER_FILES = 600;

  private static final int FEWEST_CONNECTIONS = 100;

  /** Clients, topics and subscriptions that do not belong to a sensor. */
  private static final int OTHERS = 1_000;

  /**
   * Heap per pair. A pair uses about 200 bytes, so all pairs together use at most a tenth of the
   * heap.
   */
  private static final int HEAP_BYTES_FOR_PAIR = 2_000;

  /**
   * Creates the limits for a number of sensors, without a limit of the rate of one client.
   *
   * @param payloadBytes largest payload that is read, in bytes; the broker accepts twice as much,
   *     so that a larger payload is rejected with its topic and a reason
   */
  public static BrokerLimits of(
      int payloadBytes,
      int sensors,
      Duration sessionExpiry,
      long sessionBytes,
      Function<String, @Nullable String> whyNotNew) {
    int connections = Math.min(2 * sensors + OTHERS, openFiles() - OTHER_FILES);
    return new BrokerLimits(
        2 * payloadBytes,
        Math.max(connections, FEWEST_CONNECTIONS),
        Math.max(Math.min(sensors, connections / 4 * 3), FEWEST_CONNECTIONS / 2),
        TOPICS_OF_SENSOR * sensors + OTHERS,
        Duration.ofHours(1),
        OTHERS,
        Runtime.getRuntime().maxMemory() / HEAP_BYTES_FOR_PAIR,
        2 * OTHERS,
        sessionExpiry,
        sessionBytes,
        Integer.MAX_VALUE,
        Long.MAX_VALUE,
        whyNotNew);
  }

  /** Number of files and connections that the system allows this process to have open. */
  private static int openFiles() {
    return ManagementFactory.getOperatingSystemMXBean() instanceof UnixOperatingSystemMXBean system
        ? (int) Math.min(Integer.MAX_VALUE, system.getMaxFileDescriptorCount())
        : Integer.MAX_VALUE;
  }

  /** Whether the system allows fewer connections than these sensors may need. */
  public boolean isShortOfFiles(int sensors) {
    return connections < 2 * sensors + OTHERS;
  }

  /** The same limits with a limit of the rate of one client. */
  public BrokerLimits withClientRate(int messages, long bytes) {
    return new BrokerLimits(
        packetBytes,
        connections,
        connectionsOfAddress,
        topics,
        topicIdle,
        subscriptions,
        pairs,
        retained,
        sessionExpiry,
        sessionBytes,
        messages,
        bytes,
        whyNotNew);
  }
}
