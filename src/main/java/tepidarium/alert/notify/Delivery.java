package tepidarium.alert.notify;

import java.time.Duration;
import java.time.Instant;
import java.util.Locale;
import org.jspecify.annotations.Nullable;
import tepidarium.retry.Backoff;

/**
 * The delivery of one notice through one notifier.
 *
 * @param id its number, the same for all attempts and after restarts; 0 for a test
 * @param attempts number of attempts
 * @param nextAt time of the next attempt, while it waits
 * @param settledAt time at which it was delivered or given up, or at which the attempt began that
 *     perhaps sent it; null while it waits
 * @param words outcome of the last attempt; null before the first
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

  static final Backoff BACKOFF = new Backoff(Duration.ofSeconds(10), Duration.ofMinutes(15));

  /** The state of a delivery. */
  public enum State {
    WAITING,
    DELIVERED,
    /** Given up. */
    FAILED,
    /** The service ended during the attempt; it is not sent again. */
    PERHAPS_SENT;

    public String key() {
      return name().toLowerCase(Locale.ROOT).replace('_', '-');
    }
  }

  /** A new delivery without attempts. */
  static Delivery first(long id, Notice notice, String notifier) {
    return new Delivery(id, notice, notifier, State.WAITING, 0, notice.createdAt(), null, null);
  }

  /**
   * Returns the state after an attempt: delivered, given up, or waiting for a retry. The backoff
   * doubles from 10 s to 15 min.
   *
   * @param giveUpAfter time after the notice was written at which retries end
   */
  Delivery after(DeliveryOutcome outcome, Instant now, Duration giveUpAfter) {
    int tried = attempts + 1;
    Instant next = now.plus(BACKOFF.delay(tried));
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
}
