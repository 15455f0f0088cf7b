package tepidarium.ingest.mqtt;

import java.time.Duration;
import java.time.Instant;
import org.jspecify.annotations.Nullable;

/**
 * Decides whether a message belongs to the backlog: whether it waited in the broker while the
 * service was not connected. The time at which such a message was published is unknown. After
 * connecting, the service publishes a marker to itself. The broker sends the backlog first and in
 * order, so all messages before the marker belong to the backlog. If the marker does not return,
 * the first pause of 10 s without a message ends the backlog. Thread-safe.
 */
final class BrokerBacklog {
  /** After an outage of at most 30 s, the arrival time of a message is accurate enough. */
  static final Duration SHORT_OUTAGE = Duration.ofSeconds(30);

  /** The broker sends a backlog without pauses of this length, 10 s. */
  static final Duration PAUSE = Duration.ofSeconds(10);

  private boolean expected;
  private boolean connected;
  private @Nullable Instant lostAt;
  private @Nullable String marker;
  private Instant idleSince = Instant.MIN;

  /** Records a connection attempt; messages may arrive from now on. */
  synchronized void connecting(Instant now) {
    lost(now);
    expected = lostAt == null || !isShort(lostAt, now);
    marker = null;
    idleSince = now;
  }

  /**
   * Records an established connection.
   *
   * @param sessionPresent whether the broker still had the session and its messages
   */
  synchronized void connected(boolean sessionPresent) {
    connected = true;
    expected &= sessionPresent;
  }

  /** Records a lost connection. */
  synchronized void lost(Instant now) {
    if (connected) {
      lostAt = now;
      connected = false;
    }
  }

  /** Whether a marker must be published, because a backlog is expected. */
  synchronized boolean needsMarker() {
    return connected && expected && marker == null;
  }

  /** Records the payload of the published marker. */
  synchronized void markerSent(String payload) {
    marker = payload;
  }

  /** Records that a marker returned. */
  synchronized void markerReturned(String payload) {
    if (payload.equals(marker)) {
      expected = false;
    }
  }

  /** Whether a message that arrives now belongs to the backlog. */
  synchronized boolean includes(Instant now) {
    if (expected && Duration.between(idleSince, now).compareTo(PAUSE) > 0) {
      expected = false;
    }
    return expected;
  }

  /**
   * Records that a message was handled. If this took longer than a short outage, a new backlog has
   * formed in the broker meanwhile.
   */
  synchronized void handled(Instant arrivedAt, Instant now) {
    idleSince = now;
    if (!isShort(arrivedAt, now)) {
      expected = true;
      marker = null;
    }
  }

  /**
   * Whether the time between two instants is at most a short outage; false if the clock was set
   * back.
   */
  private static boolean isShort(Instant from, Instant to) {
    Duration passed = Duration.between(from, to);
    return !passed.isNegative() && passed.compareTo(SHORT_OUTAGE) <= 0;
  }
}
