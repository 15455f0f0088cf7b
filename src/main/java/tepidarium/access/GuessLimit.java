package tepidarium.access;

import java.net.InetAddress;
import java.net.UnknownHostException;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayDeque;
import java.util.Arrays;
import java.util.Deque;
import java.util.HexFormat;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.jspecify.annotations.Nullable;

/**
 * Slows down guesses of passwords, by address and by name. Thread-safe.
 *
 * <p>An address has {@value #FREE_BY_ADDRESS} wrong guesses, then must wait 1 s, 2 s, 4 s … up to
 * 15 min between guesses. A name has {@value #FREE_BY_NAME}, then the wait is at most 30 s. The
 * limit by name does not hold for an address at which the person is signed in. An attacker can
 * therefore not lock a person out (OWASP Authentication Cheat Sheet, section account lockout). A
 * count is forgotten 1 h after its latest guess. The numbers are common practice, no source.
 *
 * <p>Keeps at most {@value #MAX_KEYS} addresses and names, and {@value #MAX_NOTED} wrong guesses;
 * the oldest are dropped.
 */
public final class GuessLimit {
  static final int FREE_BY_ADDRESS = 5;
  static final int FREE_BY_NAME = 20;
  static final Duration LONGEST_BY_ADDRESS = Duration.ofMinutes(15);
  static final Duration LONGEST_BY_NAME = Duration.ofSeconds(30);
  static final Duration FORGOTTEN_AFTER = Duration.ofHours(1);
  static final Duration NOTED_FOR = Duration.ofHours(24);
  static final int MAX_KEYS = 1_000;
  static final int MAX_NOTED = 1_000;

  private static final int MAX_DOUBLINGS = 20;
  private static final int PREFIX_BYTES = 8;

  private final Map<String, Count> byAddress = new Counts();
  private final Map<String, Count> byName = new Counts();
  private final Deque<WrongGuess> noted = new ArrayDeque<>();

  /**
   * A wrong guess.
   *
   * @param person name of the person; null if there is no such person, because people type
   *     passwords into the field for the name
   */
  public record WrongGuess(Instant at, String address, @Nullable String person) {}

  private record Count(int guesses, Instant latest) {
    Duration waiting(int free, Duration longest, Instant now) {
      if (guesses < free) {
        return Duration.ZERO;
      }
      Duration doubled = Duration.ofSeconds(1L << Math.min(guesses - free, MAX_DOUBLINGS));
      Duration pause = doubled.compareTo(longest) < 0 ? doubled : longest;
      Duration left = Duration.between(now, latest.plus(pause));
      return left.isNegative() ? Duration.ZERO : left;
    }
  }

  private static final class Counts extends LinkedHashMap<String, Count> {
    private static final long serialVersionUID = 1L;

    Counts() {
      super(16, 0.75f, true);
    }

    @Override
    protected boolean removeEldestEntry(Map.Entry<String, Count> eldest) {
      return size() > MAX_KEYS;
    }
  }

  /**
   * Begins a guess and counts it as wrong until {@link #right}, so that guesses at the same time
   * count as well.
   *
   * @param known whether the person is signed in at this address
   * @return the time to wait before the guess may be made; zero if it may be made now
   */
  synchronized Duration begin(String address, String name, boolean known, Instant now) {
    String network = network(address);
    Duration wait = waiting(byAddress, network, FREE_BY_ADDRESS, LONGEST_BY_ADDRESS, now);
    Duration waitByName =
        known ? Duration.ZERO : waiting(byName, key(name), FREE_BY_NAME, LONGEST_BY_NAME, now);
    Duration longer = wait.compareTo(waitByName) >= 0 ? wait : waitByName;
    if (longer.isZero()) {
      count(byAddress, network, now);
      if (!known) {
        count(byName, key(name), now);
      }
    }
    return longer;
  }

  private static Duration waiting(
      Map<String, Count> counts, String key, int free, Duration longest, Instant now) {
    Count count = counts.get(key);
    if (count != null && isForgotten(count, now)) {
      counts.remove(key);
      return Duration.ZERO;
    }
    return count == null ? Duration.ZERO : count.waiting(free, longest, now);
  }

  private static boolean isForgotten(Count count, Instant now) {
    return Duration.between(count.latest(), now).compareTo(FORGOTTEN_AFTER) > 0;
  }

  private static void count(Map<String, Count> counts, String key, Instant now) {
    counts.merge(key, new Count(1, now), (old, one) -> new Count(old.guesses() + 1, now));
  }

  /** Notes that a guess was wrong. */
  synchronized void wrong(String address, @Nullable String person, Instant now) {
    noted.addFirst(new WrongGuess(now, address, person));
    if (noted.size() > MAX_NOTED) {
      noted.removeLast();
    }
  }

  /**
   * Takes back what {@link #begin} counted. Wrong guesses before it still count: otherwise somebody
   * could guess the password of another person between sign-ins of their own.
   */
  synchronized void right(String address, String name, boolean known) {
    takeBack(byAddress, network(address));
    if (!known) {
      takeBack(byName, key(name));
    }
  }

  private static void takeBack(Map<String, Count> counts, String key) {
    counts.computeIfPresent(
        key,
        (same, count) ->
            count.guesses() <= 1 ? null : new Count(count.guesses() - 1, count.latest()));
  }

  /** Forgets the wrong guesses of a name, after its password was set anew on this machine. */
  synchronized void forget(String name) {
    byName.remove(key(name));
  }

  /** Returns the wrong guesses of the past 24 h, latest first. */
  public synchronized List<WrongGuess> wrongGuesses(Instant now) {
    noted.removeIf(guess -> guess.at().isBefore(now.minus(NOTED_FOR)));
    return List.copyOf(noted);
  }

  private static String key(String name) {
    return Secret.hash(name.strip().toLowerCase(Locale.ROOT));
  }

  /** An IPv4 address, or the first 64 bits of an IPv6 address, which belong to one household. */
  private static String network(String address) {
    if (address.indexOf(':') < 0) {
      return address;
    }
    try {
      byte[] bytes = InetAddress.getByName(address).getAddress();
      return HexFormat.of().formatHex(Arrays.copyOf(bytes, Math.min(bytes.length, PREFIX_BYTES)));
    } catch (UnknownHostException e) {
      return address;
    }
  }
}
