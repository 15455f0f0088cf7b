package tepidarium.ingest.mqtt;

import java.time.Duration;
import java.util.HashMap;
import java.util.Map;
import java.util.function.IntSupplier;
import java.util.function.LongSupplier;
import org.jspecify.annotations.Nullable;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import tepidarium.ingest.Reject;

/**
 * Limits password guessing. After 5 wrong passwords for one account from one network address within
 * a minute, refuses logins to that account from that address until the minute is over. User names
 * without an account share one limit per address. A client id that has already logged in from the
 * address has a separate limit: an attacker who does not know the id cannot lock that client out.
 * Client ids are stored per account: a client of one account cannot evict those of another. Logs
 * refused logins at most once a minute. Thread-safe.
 */
final class LoginLimit {
  private static final Logger LOG = LoggerFactory.getLogger(LoginLimit.class);
  static final int MAX_FAILURES = 5;
  private static final Duration WINDOW = Duration.ofMinutes(1);

  /** Number of shared limits that are stored, in addition to two for each account. */
  private static final int MIN_SHARED = 1_000;

  /** Maximum number of stored client ids for all accounts. */
  private static final int MAX_KNOWN = 10_000;

  private static final int MIN_KNOWN_PER_ACCOUNT = 20;
  private static final int MAX_KNOWN_LENGTH = 256;

  /**
   * The client that logs in.
   *
   * @param account name of an existing account; empty for all other names
   * @param host its network address
   * @param clientId its client id; empty if it has none
   */
  record Client(String account, String host, String clientId) {
    private String shared() {
      return host + ' ' + account;
    }

    private String own() {
      return host + ' ' + clientId;
    }
  }

  /** Counts wrong passwords within a minute. */
  private static final class Failures {
    private long startNanos;
    private int count;

    void add(long now) {
      if (count == 0 || now - startNanos >= WINDOW.toNanos()) {
        startNanos = now;
        count = 0;
      }
      count++;
    }

    boolean exceedLimit(long now) {
      return count >= MAX_FAILURES && now - startNanos < WINDOW.toNanos();
    }
  }

  private final LongSupplier nanos;
  private final IntSupplier accounts;
  private final Map<String, Failures> shared;

  /**
   * Failures of each client id that has logged in, by account. When an account has too many, the id
   * with the oldest login is removed.
   */
  private final Map<String, Map<String, Failures>> known = new HashMap<>();

  private final RecentCount refused = new RecentCount();
  private String last = "";

  /**
   * Creates a limit.
   *
   * @param nanos a clock in nanoseconds, such as {@link System#nanoTime}
   * @param accounts number of accounts, which may change
   */
  LoginLimit(LongSupplier nanos, IntSupplier accounts) {
    this.nanos = nanos;
    this.accounts = accounts;
    this.shared = new BoundedMap<>(() -> MIN_SHARED + 2 * accounts.getAsInt());
  }

  private int maxKnownPerAccount() {
    return Math.max(MIN_KNOWN_PER_ACCOUNT, MAX_KNOWN / (accounts.getAsInt() + 1));
  }

  /** Records a login with the right password. */
  synchronized void succeeded(Client client) {
    String own = client.own();
    if (!client.clientId().isEmpty() && own.length() <= MAX_KNOWN_LENGTH) {
      Map<String, Failures> ids =
          known.computeIfAbsent(
              client.account(), account -> new BoundedMap<>(this::maxKnownPerAccount));
      Failures failures = ids.remove(own);
      ids.put(own, failures == null ? new Failures() : failures);
    }
  }

  /** Whether a login must be refused without checking its password. */
  synchronized boolean isBlocked(Client client) {
    Failures failures = ownFailures(client);
    if (failures == null) {
      failures = shared.get(client.shared());
    }
    return failures != null && failures.exceedLimit(nanos.getAsLong());
  }

  /** Records a wrong password. */
  synchronized void failed(Client client) {
    Failures failures = ownFailures(client);
    if (failures == null) {
      failures = shared.computeIfAbsent(client.shared(), key -> new Failures());
    }
    failures.add(nanos.getAsLong());
  }

  private @Nullable Failures ownFailures(Client client) {
    return known.getOrDefault(client.account(), Map.of()).get(client.own());
  }

  /** Records and logs a refused login. */
  synchronized void refused(String reason) {
    // The text contains names of clients; line breaks in them could forge lines of the log.
    last = Reject.printableReason(reason);
    if (refused.add(nanos.getAsLong())) {
      LOG.warn("login refused: {}; further refusals are not logged for one minute", last);
    }
  }

  /** A text with the number of refused logins within the last hour. */
  synchronized String summary() {
    long count = refused.sum(nanos.getAsLong());
    return count == 0
        ? "no login refused within the last hour"
        : count + " logins refused within the last hour, the last one from " + last;
  }
}
