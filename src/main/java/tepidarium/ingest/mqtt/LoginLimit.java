package tepidarium.ingest.mqtt;

import java.time.Duration;
import java.time.Instant;
import java.util.ArrayDeque;
import java.util.Deque;
import java.util.HashMap;
import java.util.Map;
import java.util.function.LongSupplier;
import org.jspecify.annotations.Nullable;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import tepidarium.ingest.Reject;
import tepidarium.ingest.RejectCode;

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
  private static final Duration SHOWN = Duration.ofHours(1);

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
  private final int maxKnownPerAccount;
  private final Map<String, Failures> shared;

  /**
   * Failures of each client id that has logged in, by account. When an account has too many, the id
   * with the oldest login is removed.
   */
  private final Map<String, Map<String, Failures>> known = new HashMap<>();

  /** Refused logins of the last hour in windows of a minute: start in nanoseconds, and number. */
  private final Deque<long[]> refusedByMinute = new ArrayDeque<>();

  private String last = "";

  /**
   * Creates a limit.
   *
   * @param nanos a clock in nanoseconds, such as {@link System#nanoTime}
   * @param accounts number of accounts, at least 0
   */
  LoginLimit(LongSupplier nanos, int accounts) {
    this.nanos = nanos;
    this.maxKnownPerAccount = Math.max(MIN_KNOWN_PER_ACCOUNT, MAX_KNOWN / (accounts + 1));
    this.shared = new BoundedMap<>(MIN_SHARED + 2 * accounts);
  }

  /** Records a login with the right password. */
  synchronized void succeeded(Client client) {
    String own = client.own();
    if (!client.clientId().isEmpty() && own.length() <= MAX_KNOWN_LENGTH) {
      Map<String, Failures> ids =
          known.computeIfAbsent(client.account(), account -> new BoundedMap<>(maxKnownPerAccount));
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
    long now = nanos.getAsLong();
    // The text contains names of clients; line breaks in them could forge lines of the log.
    last = Reject.of(Instant.EPOCH, "", RejectCode.OTHER, reason, "").reason();
    long[] minute = refusedByMinute.peekLast();
    if (minute == null || now - minute[0] >= WINDOW.toNanos()) {
      LOG.warn("login refused: {}; further refusals are not logged for one minute", last);
      removeOld(now);
      refusedByMinute.add(new long[] {now, 1});
    } else {
      minute[1]++;
    }
  }

  private void removeOld(long now) {
    while (!refusedByMinute.isEmpty() && now - refusedByMinute.peek()[0] >= SHOWN.toNanos()) {
      refusedByMinute.remove();
    }
  }

  /** A text with the number of refused logins within the last hour. */
  synchronized String summary() {
    removeOld(nanos.getAsLong());
    long refused = refusedByMinute.stream().mapToLong(minute -> minute[1]).sum();
    return refused == 0
        ? "no login refused within the last hour"
        : refused + " logins refused within the last hour, the last one from " + last;
  }
}
