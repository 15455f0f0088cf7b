package tepidarium.ingest.mqtt;

import java.util.concurrent.TimeUnit;
import java.util.function.LongSupplier;

/**
 * Limits the messages and bytes that one client sends, as two token buckets. A bucket holds the
 * tokens of 2 s, so a short burst is not slowed. More may be taken than there is; then the client
 * must wait until both buckets are above zero again. Thread-safe.
 */
final class ClientRate {
  private static final double BURST_SECONDS = 2;
  private static final double NANOS_PER_SECOND = TimeUnit.SECONDS.toNanos(1);

  private final double messagesPerSecond;
  private final double bytesPerSecond;
  private final LongSupplier nanos;
  private double messages;
  private double bytes;
  private long filledAt;

  /**
   * Creates a limit with full buckets.
   *
   * @param nanos a clock in nanoseconds, such as {@link System#nanoTime}
   */
  ClientRate(double messagesPerSecond, double bytesPerSecond, LongSupplier nanos) {
    this.messagesPerSecond = messagesPerSecond;
    this.bytesPerSecond = bytesPerSecond;
    this.nanos = nanos;
    this.messages = BURST_SECONDS * messagesPerSecond;
    this.bytes = BURST_SECONDS * bytesPerSecond;
    this.filledAt = nanos.getAsLong();
  }

  /**
   * Takes what has arrived.
   *
   * @return time in nanoseconds until more may be read; 0 for at once
   */
  synchronized long take(long newMessages, long newBytes) {
    long now = nanos.getAsLong();
    double seconds = (now - filledAt) / NANOS_PER_SECOND;
    filledAt = now;
    messages =
        Math.min(messages + seconds * messagesPerSecond, BURST_SECONDS * messagesPerSecond)
            - newMessages;
    bytes = Math.min(bytes + seconds * bytesPerSecond, BURST_SECONDS * bytesPerSecond) - newBytes;
    double wait = Math.max(-messages / messagesPerSecond, -bytes / bytesPerSecond);
    return wait <= 0 ? 0 : (long) Math.ceil(wait * NANOS_PER_SECOND);
  }
}
