package tepidarium.alert.notify;

import java.time.Duration;
import java.time.Instant;
import java.util.Locale;
import org.jspecify.annotations.Nullable;

/**
 * A notice on its way to one notifier.
 *
 * @param id its number, stable over attempts and restarts; 0 for a test
 * @param attempts how often it was tried
 * @param nextAt when it is tried next, while it waits
 * @param settledAt when it was delivered or given up; null while it waits
 * @param words how the last attempt ended; null before the first
 */
public record Delivery(
    long id,
    Notice notice,
    String notifier,
    State state,
    int attempts,
    Instant nextAt,
    @Nullable Instant settledAt,
    @Nullable String words) {

  private static final Duration FIRST_PAUSE = Duration.ofSeconds(10);
  private static final Duration LONGEST_PAUSE = Duration.ofMinutes(15);

  /** Where a delivery stands. */
  public enum State {
    WAITING,
    DELIVERED,
    FAILED;

    public String key() {
      return name().toLowerCase(Locale.ROOT);
    }
  }

  /** One for a notice that has not been tried yet. */
  static Delivery first(long id, Notice notice, String notifier) {
    return new Delivery(id, notice, notifier, State.WAITING, 0, notice.createdAt(), null, null);
  }

  /**
   * After an attempt: delivered, given up, or to be tried again after a pause that doubles from 10
   * s to 15 min.
   *
   * @param giveUpAfter how long after it was written it is worth trying
   */
  Delivery after(Outcome outcome, Instant now, Duration giveUpAfter) {
    int tried = attempts + 1;
    Instant next = now.plus(pause(tried));
    boolean late = next.isAfter(notice.createdAt().plus(giveUpAfter));
    State reached =
        switch (outcome.result()) {
          case DELIVERED -> State.DELIVERED;
          case REFUSED -> State.FAILED;
          case LATER -> late ? State.FAILED : State.WAITING;
        };
    Instant settled = reached == State.WAITING ? null : now;
    return new Delivery(id, notice, notifier, reached, tried, next, settled, outcome.words());
  }

  static Duration pause(int attempts) {
    Duration pause = FIRST_PAUSE.multipliedBy(1L << Math.min(attempts - 1, 20));
    return pause.compareTo(LONGEST_PAUSE) < 0 ? pause : LONGEST_PAUSE;
  }
}
