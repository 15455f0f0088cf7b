package tepidarium.ingest.mqtt;

import java.io.InputStream;
import java.util.Map;
import java.util.function.LongSupplier;
import java.util.function.UnaryOperator;
import org.jspecify.annotations.Nullable;
import tepidarium.ingest.Reject;
import tepidarium.ingest.mqtt.PublishFilter.Publish;

/**
 * Detects a stuck MQTT client: its receiving thread has ended, or messages wait and none arrives
 * within a time limit. Counts how often each message stopped the client, over all connections.
 * After three times, the message is skipped. Thread-safe.
 */
final class ReceiveWatchdog {
  /** A message that has stopped the client this often is skipped. */
  static final int MAX_FAILURES = 3;

  /** Maximum number of messages whose failures are counted; the oldest is removed. */
  private static final int MAX_SUSPECTS = 100;

  private final MqttLink.Limits limits;
  private final LongSupplier waitingInBroker;
  private final UnaryOperator<InputStream> beforeClient;
  private final Map<Long, Integer> failures = new BoundedMap<>(() -> MAX_SUSPECTS);

  private volatile @Nullable PublishFilter filter;
  private long unacknowledged;
  private long arrivedNanos;
  private long storedNanos;

  /**
   * Creates the watchdog of one link.
   *
   * @param waitingInBroker number of messages that the broker holds for the service; 0 if unknown
   * @param beforeClient wraps the stream that the client reads; for tests
   */
  ReceiveWatchdog(
      MqttLink.Limits limits,
      LongSupplier waitingInBroker,
      UnaryOperator<InputStream> beforeClient) {
    this.limits = limits;
    this.waitingInBroker = waitingInBroker;
    this.beforeClient = beforeClient;
  }

  /** Records a new connection, and returns the stream that its client must read. */
  synchronized InputStream connected(InputStream fromBroker) {
    PublishFilter fresh = new PublishFilter(fromBroker, limits.payloadBytes(), this::skipReason);
    filter = fresh;
    unacknowledged = 0;
    arrivedNanos = System.nanoTime();
    return beforeClient.apply(fresh);
  }

  synchronized void disconnected() {
    filter = null;
  }

  private synchronized @Nullable String skipReason(Publish message) {
    int count = failures.isEmpty() ? 0 : failures.getOrDefault(message.fingerprint(), 0);
    return count < MAX_FAILURES
        ? null
        : "skipped, because it stopped the MQTT client " + count + " times; please report this";
  }

  /**
   * Properties of a delivered message that the client does not provide.
   *
   * @param refusal the message that this one replaces, and why; null if it replaces none
   * @param redelivered whether the broker marked it as delivered before
   */
  record Arrived(PublishFilter.@Nullable Refusal refusal, boolean redelivered) {}

  /** Records that the client delivers a message. */
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
    boolean redelivered = delivered != null && delivered.redelivered();
    return new Arrived(
        topic.equals(PublishFilter.REPLACED) ? current.nextRefusal() : null, redelivered);
  }

  /** Records that a message was stored or logged and is being acknowledged. */
  synchronized void stored() {
    unacknowledged--;
    storedNanos = System.nanoTime();
  }

  /**
   * Records that a message that is not meant for the store is being acknowledged. It does not show
   * that the store accepts messages.
   */
  synchronized void acknowledgedUnstored() {
    unacknowledged--;
  }

  /** Whether the client's receiving thread has ended while the connection should be open. */
  boolean isDead() {
    PublishFilter current = filter;
    return current != null && current.isReaderDead();
  }

  /** Returns why the client is stuck; null if it receives. */
  @Nullable String whyStuck() {
    PublishFilter current = filter;
    if (current == null) {
      return null;
    }
    if (current.isReaderDead()) {
      return "the MQTT client stopped receiving" + suspectText(current);
    }
    boolean waits =
        current.undelivered() != null || current.hasUnread() || waitingInBroker.getAsLong() > 0;
    synchronized (this) {
      if (!waits) {
        // The time limit of the next waiting message starts now.
        arrivedNanos = System.nanoTime();
        return null;
      }
      // The client is not stuck if the store has not yet accepted the delivered messages.
      if (unacknowledged > 0 || System.nanoTime() - arrivedNanos < limits.stuckAfter().toNanos()) {
        return null;
      }
    }
    return "messages wait in the broker, but none has arrived for "
        + limits.stuckAfter().toSeconds()
        + " s"
        + suspectText(current);
  }

  /** Returns why received messages are not stored; null if they are. */
  synchronized @Nullable String whyNotStored() {
    boolean blocked =
        unacknowledged > 0 && System.nanoTime() - storedNanos >= limits.stuckAfter().toNanos();
    return blocked
        ? unacknowledged
            + " messages wait, because the readings store has accepted none for "
            + limits.stuckAfter().toSeconds()
            + " s"
        : null;
  }

  private String suspectText(PublishFilter current) {
    Publish suspect = current.undelivered();
    if (suspect == null) {
      return "";
    }
    int count;
    synchronized (this) {
      count = failures.merge(suspect.fingerprint(), 1, Integer::sum);
    }
    String topic = Reject.printable(suspect.topic());
    return "; the message on "
        + topic
        + " may be the cause ("
        + count
        + " of "
        + MAX_FAILURES
        + ")";
  }
}
