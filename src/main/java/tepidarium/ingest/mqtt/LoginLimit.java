package tepidarium.ingest.mqtt;

import java.time.Duration;
import java.time.Instant;
import java.util.ArrayDeque;
import java.util.Collections;
import java.util.Deque;
import java.util.Map;
import java.util.Set;
import java.util.function.LongSupplier;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import tepidarium.ingest.Reject;

/**
 * Limits guessing of passwords: after 5 wrong ones within a minute, logins to that account from
 * that address are refused until the minute is over. Names without an account share one limit per
 * address. A client id that has logged in there has a limit of its own, so that a guesser does not
 * lock it out without knowing it. Logs refused logins at most once a minute. Safe for use by
 * several threads.
 */
final class LoginLimit {
  private static final Logger LOG = LoggerFactory.getLogger(LoginLimit.class);
  static final int MOST_FAILURES = 5;
  private static final Duration WINDOW = Duration.ofMinutes(1);
  private static final Duration TOLD = Duration.ofHours(1);
  private static final int MOST_KEYS = 1_000;
  private static final int MOST_KNOWN = 10_000;
  private static final int LONGEST_KNOWN = 256;

  private static final class Window {
    final long startNanos;
    int failures;

    Window(long startNanos) {
      this.startNanos = startNanos;
    }
  }

  private final LongSupplier nanos;
  private final Map<String, Window> windows = new BoundedMap<>(MOST_KEYS);

  /** Keys of client ids that have logged in; the one whose login is longest ago is forgotten. */
  private final Set<String> known = Collections.newSetFromMap(new BoundedMap<>(MOST_KNOWN));

  /** Minutes of the last hour in which logins were refused: when each began, and how many. */
  private final Deque<long[]> refusedByMinute = new ArrayDeque<>();

  private String last = "";

  LoginLimit(LongSupplier nanos) {
    this.nanos = nanos;
  }

  /** The limit that applies to a client id, of all that share an address or an account there. */
  synchronized String key(String shared, String clientId) {
    String own = own(shared, clientId);
    return known.contains(own) ? own : shared;
  }

  /** A client has logged in with the right password. */
  synchronized void succeeded(String shared, String clientId) {
    String own = own(shared, clientId);
    if (!clientId.isEmpty() && own.length() <= LONGEST_KNOWN) {
      known.remove(own);
      known.add(own);
    }
  }

  private static String own(String shared, String clientId) {
    return shared + '\n' + clientId;
  }

  /** Whether a login must be refused without a look at its password. */
  synchronized boolean isBlocked(String key) {
    Window window = windows.get(key);
    return window != null
        && nanos.getAsLong() - window.startNanos < WINDOW.toNanos()
        && window.failures >= MOST_FAILURES;
  }

  /** A password was wrong. */
  synchronized void failed(String key) {
    long now = nanos.getAsLong();
    Window window = windows.get(key);
    if (window == null || now - window.startNanos >= WINDOW.toNanos()) {
      windows.remove(key);
      window = new Window(now);
      windows.put(key, window);
    }
    window.failures++;
  }

  /** A login was refused, with a wrong password or without a look at it. */
  synchronized void refused(String words) {
    long now = nanos.getAsLong();
    // Clients choose some of the words; line breaks in them would forge lines of the log.
    last = Reject.of(Instant.EPOCH, "", words, "").reason();
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
