package tepidarium.ingest.mqtt;

import java.time.Duration;
import java.time.Instant;
import org.jspecify.annotations.Nullable;

/**
 * Decides which messages waited in the broker while the service was away, so that their arrival
 * does not tell when they were published. The broker sends what waited first, in its order, so
 * everything up to a marker has waited, which the service publishes to itself after it has
 * connected. Where the marker does not come back, the first pause of {@link #PAUSE} ends the
 * waiting ones. Safe for use by several threads.
 */
final class WaitedMessages {
  /** An outage up to this long, seconds, makes no arrival so wrong that it matters. */
  static final Duration SHORT_OUTAGE = Duration.ofSeconds(30);

  /** The broker sends what waited without pauses of this length. */
  static final Duration PAUSE = Duration.ofSeconds(10);

  private boolean waiting;
  private boolean connected;
  private @Nullable Instant lostAt;
  private @Nullable String marker;
  private Instant idleSince = Instant.MIN;

  /** A connection is tried; messages may come from now on. */
  synchronized void connecting(Instant now) {
    lost(now);
    waiting = lostAt == null || !isShort(lostAt, now);
    marker = null;
    idleSince = now;
  }

  /**
   * The connection is made.
   *
   * @param sessionPresent whether the broker had kept the session, and messages with it
   */
  synchronized void connected(boolean sessionPresent) {
    connected = true;
    waiting &= sessionPresent;
  }

  /** The connection is lost. */
  synchronized void lost(Instant now) {
    if (connected) {
      lostAt = now;
      connected = false;
    }
  }

  /** Whether a marker should be published, as messages that wait are expected. */
  synchronized boolean needsMarker() {
    return connected && waiting && marker == null;
  }

  /** The marker with this payload is being published. */
  synchronized void sent(String payload) {
    marker = payload;
  }

  /** A marker came back. */
  synchronized void returned(String payload) {
    if (payload.equals(marker)) {
      waiting = false;
    }
  }

  /** Whether the message that arrives now waited in the broker for an unknown time. */
  synchronized boolean waited(Instant now) {
    if (waiting && Duration.between(idleSince, now).compareTo(PAUSE) > 0) {
      waiting = false;
    }
    return waiting;
  }

  /**
   * A message was taken in. While that took long, because the store was away, others waited in the
   * broker.
   */
  synchronized void handled(Instant arrivedAt, Instant now) {
    idleSince = now;
    if (!isShort(arrivedAt, now)) {
      waiting = true;
      marker = null;
    }
  }

  /** A clock that was set back between the two tells nothing about the time that passed. */
  private static boolean isShort(Instant from, Instant to) {
    Duration passed = Duration.between(from, to);
    return !passed.isNegative() && passed.compareTo(SHORT_OUTAGE) <= 0;
  }
}
