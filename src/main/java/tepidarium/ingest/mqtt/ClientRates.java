package tepidarium.ingest.mqtt;

import java.util.Map;
import java.util.function.LongSupplier;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import tepidarium.ingest.Reject;

/**
 * Creates the rate limits of clients, and counts the clients that were slowed. All connections of
 * an account share one limit. Logs at most one slowed client a minute. Thread-safe.
 */
final class ClientRates {
  private static final Logger LOG = LoggerFactory.getLogger(ClientRates.class);
  private static final int MAX_ACCOUNTS = 10_000;

  private final BrokerLimits limits;
  private final LongSupplier nanos;
  private final Map<String, ClientRate> byAccount = new BoundedMap<>(() -> MAX_ACCOUNTS);
  private final RecentCount pauses = new RecentCount();
  private String last = "";

  /**
   * Creates the limits of one broker.
   *
   * @param nanos a clock in nanoseconds, such as {@link System#nanoTime}
   */
  ClientRates(BrokerLimits limits, LongSupplier nanos) {
    this.limits = limits;
    this.nanos = nanos;
  }

  /** A limit for one connection. */
  ClientRate forConnection() {
    return new ClientRate(limits.messagesPerSecond(), limits.bytesPerSecond(), nanos);
  }

  /** The limit that all connections of an account share. */
  synchronized ClientRate forAccount(String account) {
    return byAccount.computeIfAbsent(account, name -> forConnection());
  }

  /** Records that a client must wait before more is read from it. */
  synchronized void slowed(String client) {
    last = Reject.printableReason(client);
    if (pauses.add(nanos.getAsLong())) {
      LOG.warn(
          "{} sends more than {} messages or {} KiB a second. The rest of its messages wait."
              + " Further slowed clients are not logged for one minute",
          last,
          limits.messagesPerSecond(),
          limits.bytesPerSecond() >> 10);
    }
  }

  /** A text with the client that was slowed last within the last hour. */
  synchronized String summary() {
    return pauses.sum(nanos.getAsLong()) == 0
        ? "no client slowed within the last hour"
        : last
            + " sends more than "
            + limits.messagesPerSecond()
            + " messages or "
            + (limits.bytesPerSecond() >> 10)
            + " KiB a second, so the rest of its messages wait (slowed within the last hour). Check"
            + " this sensor, or raise clientMessagesPerSecond and clientKilobytesPerSecond";
  }
}
