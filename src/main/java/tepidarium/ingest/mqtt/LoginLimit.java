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
 * Limits guessing of passwords: after 5 wrong ones within a minute, logins to that account from
 * that address are refused until the minute is over. Names without an account share one limit per
 * address. A client id that has logged in there has a limit of its own, so that a guesser does not
 * lock it out without knowing it. Each account remembers its own client ids: who holds one account
 * cannot make the service forget those of another. Logs refused logins at most once a minute. Safe
 * for use by several threads.
 */
final class LoginLimit {
  private static final Logger LOG = LoggerFactory.getLogger(LoginLimit.class);
  static final int MOST_FAILURES = 5;
  private static final Duration WINDOW = Duration.ofMinutes(1);
  private static final Duration TOLD = Duration.ofHours(1);

  /** Limits that are shared by the clients of an address; two for each account at least. */
  private static final int LEAST_SHARED = 1_000;

  /** Client ids that are known in all, while each account may have the least number. */
  private static final int MOST_KNOWN = 10_000;

  private static final int LEAST_KNOWN_OF_ACCOUNT = 20;
  private static final int LONGEST_KNOWN = 256;

  /**
   * Who logs in.
   *
   * @param account the name of an account that exists; empty for all other names
   * @param host the address it comes from
   * @param clientId empty for none
   */
  record Client(String account, String host, String clientId) {
    private String shared() {
      return host + ' ' + account;
    }

    private String own() {
      return host + ' ' + clientId;
    }
  }

  /** Wrong passwords within a minute. */
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

    boolean areTooMany(long now) {
      return count >= MOST_FAILURES && now - startNanos < WINDOW.toNanos();
    }
  }

  private final LongSupplier nanos;
  private final int mostKnownOfAccount;
  private final Map<String, Failures> shared;

  /** Failures of client ids that have logged in, by account; the oldest login is forgotten. */
  private final Map<String, Map<String, Failures>> known = new HashMap<>();

  /** Minutes of the last hour in which logins were refused: when each began, and how many. */
  private final Deque<long[]> refusedByMinute = new ArrayDeque<>();

  private String last = "";

  /**
   * A limit.
   *
   * @param nanos a clock in nanoseconds, such as {@link System#nanoTime}
   * @param accounts how many accounts there are, at least 0
   */
  LoginLimit(LongSupplier nanos, int accounts) {
    this.nanos = nanos;
    this.mostKnownOfAccount = Math.max(LEAST_KNOWN_OF_ACCOUNT, MOST_KNOWN / (accounts + 1));
    this.shared = new BoundedMap<>(LEAST_SHARED + 2 * accounts);
  }

  /** A client has logged in to an account with the right password. */
  synchronized void succeeded(Client client) {
    String own = client.own();
    if (!client.clientId().isEmpty() && own.length() <= LONGEST_KNOWN) {
      Map<String, Failures> ids =
          known.computeIfAbsent(client.account(), account -> new BoundedMap<>(mostKnownOfAccount));
      Failures failures = ids.remove(own);
      ids.put(own, failures == null ? new Failures() : failures);
    }
  }

  /** Whether a login must be refused without a look at its password. */
  synchronized boolean isBlocked(Client client) {
    Failures failures = ownFailures(client);
    if (failures == null) {
      failures = shared.get(client.shared());
    }
    return failures != null && failures.areTooMany(nanos.getAsLong());
  }

  /** A password was wrong. */
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

  /** A login was refused, with a wrong password or without a look at it. */
  synchronized void refused(String words) {
    long now = nanos.getAsLong();
    // Clients choose some of the words; line breaks in them would forge lines of the log.
    last = Reject.of(Instant.EPOCH, "", RejectCode.OTHER, words, "").reason();
    long[] minute = refusedByMinute.peekLast();
    if (minute == null || now - minute[0] >= WINDOW.toNanos()) {
      LOG.warn("login refused: {}; further ones are logged in a minute", last);
      forgetOld(now);
      refusedByMinute.add(new long[] {now, 1});
    } else {
      minute[1]++;
    }
  }

  private void forgetOld(long now) {
    while (!refusedByMinute.isEmpty() && now - refusedByMinute.peek()[0] >= TOLD.toNanos()) {
      refusedByMinute.remove();
    }
  }

  /** How many logins were refused within the last hour, in words. */
  synchronized String summary() {
    forgetOld(nanos.getAsLong());
    long refused = refusedByMinute.stream().mapToLong(minute -> minute[1]).sum();
    return refused == 0
        ? "no login refused within the last hour"
        : refused + " logins refused within the last hour, the last one of " + last;
  }
}
