package tepidarium.ingest.mqtt;

import java.io.InputStream;
import java.time.Instant;
import java.util.Map;
import java.util.function.LongSupplier;
import java.util.function.UnaryOperator;
import org.jspecify.annotations.Nullable;
import tepidarium.ingest.Reject;
import tepidarium.ingest.RejectCode;
import tepidarium.ingest.mqtt.PublishFilter.Publish;

/**
 * Watches whether messages that wait for the service also arrive, over all connections to a broker.
 * Notices when the client's receiving thread has ended, and when messages wait and none arrives for
 * a time. Remembers which message stopped the client; the third time it has the message skipped.
 * Safe for use by several threads.
 */
final class Reception {
  /** A message that stops the client this often is skipped. */
  static final int MOST_FAILURES = 3;

  /** So many suspects are remembered; an older one is then tried again from the start. */
  private static final int MOST_SUSPECTS = 100;

  private final MqttLink.Limits limits;
  private final LongSupplier waitingInBroker;
  private final UnaryOperator<InputStream> beforeClient;
  private final Map<Long, Integer> failures = new BoundedMap<>(MOST_SUSPECTS);

  private volatile @Nullable PublishFilter filter;
  private long unacknowledged;
  private long arrivedNanos;
  private long storedNanos;

  /**
   * Begins to watch.
   *
   * @param waitingInBroker how many messages the broker holds for the service; 0 if not known
   * @param beforeClient wraps what the client reads; for tests
   */
  Reception(
      MqttLink.Limits limits,
      LongSupplier waitingInBroker,
      UnaryOperator<InputStream> beforeClient) {
    this.limits = limits;
    this.waitingInBroker = waitingInBroker;
    this.beforeClient = beforeClient;
  }

  /** What the client of a new connection reads. */
  synchronized InputStream connected(InputStream fromBroker) {
    PublishFilter fresh = new PublishFilter(fromBroker, limits.payloadBytes(), this::whySkipped);
    filter = fresh;
    unacknowledged = 0;
    arrivedNanos = System.nanoTime();
    return beforeClient.apply(fresh);
  }

  synchronized void disconnected() {
    filter = null;
  }

  private synchronized @Nullable String whySkipped(Publish message) {
    int count = failures.isEmpty() ? 0 : failures.getOrDefault(message.fingerprint(), 0);
    return count < MOST_FAILURES
        ? null
        : "skipped: it stopped the MQTT client " + count + " times; please report it";
  }

  /**
   * What is known of a message that the client delivers.
   *
   * @param refusal why this is only the replacement of a message; null for a message itself
   * @param again whether the broker marked it as delivered before; the client does not tell
   */
  record Arrived(PublishFilter.@Nullable Refusal refusal, boolean again) {}

  /** The client delivers a message. */
  Arrived arrived(String topic) {
    PublishFilter current = filter;
    synchronized (this) {
      arrivedNanos = System.nanoTime();
      if (unacknowledged++ == 0) {
        storedNanos = arrivedNanos;
      }
    }
    if (current == null) {
      return new Arrived(null, false);
    }
    Publish delivered = current.delivered();
    boolean again = delivered != null && delivered.again();
    return new Arrived(topic.equals(PublishFilter.REPLACED) ? current.nextRefusal() : null, again);
  }

  /** A message has been stored or logged, and is acknowledged. */
  synchronized void stored() {
    unacknowledged--;
    storedNanos = System.nanoTime();
  }

  /** A message that is not to be stored is acknowledged; it says nothing about the store. */
  synchronized void passed() {
    unacknowledged--;
  }

  /** Whether the client's receiving thread has ended although it should receive. */
  boolean isDead() {
    PublishFilter current = filter;
    return current != null && current.isReaderDead();
  }

  /** Why the client must be made anew; null while all is well. */
  @Nullable String whyStuck() {
    PublishFilter current = filter;
    if (current == null) {
      return null;
    }
    if (current.isReaderDead()) {
      return "the MQTT client stopped receiving" + blame(current);
    }
    boolean waits =
        current.undelivered() != null || current.hasUnread() || waitingInBroker.getAsLong() > 0;
    synchronized (this) {
      if (!waits) {
        // A message that begins to wait from now on has the whole time.
        arrivedNanos = System.nanoTime();
        return null;
      }
      // Messages that were delivered and wait for the store hold up the others.
      if (unacknowledged > 0 || System.nanoTime() - arrivedNanos < limits.stuckAfter().toNanos()) {
        return null;
      }
    }
    return "messages wait and none arrived for "
        + limits.stuckAfter().toSeconds()
        + " s"
        + blame(current);
  }

  /** Why nothing is taken in although the client is well; null while all is well. */
  synchronized @Nullable String whyHeldUp() {
    boolean held =
        unacknowledged > 0 && System.nanoTime() - storedNanos >= limits.stuckAfter().toNanos();
    return held
        ? unacknowledged
            + " messages wait for the readings store, which took none for "
            + limits.stuckAfter().toSeconds()
            + " s"
        : null;
  }

  private String blame(PublishFilter current) {
    Publish suspect = current.undelivered();
    if (suspect == null) {
      return "";
    }
    int count;
    synchronized (this) {
      count = failures.merge(suspect.fingerprint(), 1, Integer::sum);
    }
    String topic = Reject.of(Instant.EPOCH, suspect.topic(), RejectCode.OTHER, "", "").topic();
    return " at a message on " + topic + " (" + count + " of " + MOST_FAILURES + " times)";
  }
}
