package tepidarium.ingest.mqtt;

import java.time.Duration;
import java.time.Instant;
import org.jspecify.annotations.Nullable;

/**
 * Decides which messages waited in the broker while the service was not connected. Their arrival
 * does not tell when they were published. After it has connected, the service publishes a marker to
 * itself. The broker sends waiting messages first and in order, so all messages before the marker
 * have waited. If the marker does not return, the first pause of {@link #PAUSE} marks the end of
 * the waiting messages. Thread-safe.
 */
final class WaitedMessages {
  /** Longest outage after which arrival times are still accurate enough, 30 s. */
  static final Duration SHORT_OUTAGE = Duration.ofSeconds(30);

  /** A pause of this length, 10 s, does not occur while the broker sends waiting messages. */
  static final Duration PAUSE = Duration.ofSeconds(10);

  private boolean waiting;
  private boolean connected;
  private @Nullable Instant lostAt;
  private @Nullable String marker;
  private Instant idleSince = Instant.MIN;

  /** Records a connection attempt; messages may arrive from now on. */
  synchronized void connecting(Instant now) {
    lost(now);
    waiting = lostAt == null || !isShort(lostAt, now);
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
    waiting &= sessionPresent;
  }

  /** Records a lost connection. */
  synchronized void lost(Instant now) {
    if (connected) {
      lostAt = now;
      connected = false;
    }
  }

  /** Whether a marker must be published, because waiting messages are expected. */
  synchronized boolean needsMarker() {
    return connected && waiting && marker == null;
  }

  /** Records the payload of the published marker. */
  synchronized void sent(String payload) {
    marker = payload;
  }

  /** Records that a marker returned. */
  synchronized void returned(String payload) {
    if (payload.equals(marker)) {
      waiting = false;
    }
  }

  /** Whether a message that arrives now waited in the broker for an unknown time. */
  synchronized boolean waited(Instant now) {
    if (waiting && Duration.between(idleSince, now).compareTo(PAUSE) > 0) {
      waiting = false;
    }
    return waiting;
  }

  /**
   * Records that a message was stored. If this took longer than a short outage, other messages
   * waited in the broker.
   */
  synchronized void handled(Instant arrivedAt, Instant now) {
    idleSince = now;
    if (!isShort(arrivedAt, now)) {
      waiting = true;
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
