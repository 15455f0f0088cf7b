package tepidarium.access;

import java.time.Duration;
import java.time.Instant;

/**
 * A browser in which a person is signed in.
 *
 * @param id number that no other session ever has
 * @param hash hash of the secret in the browser's cookie, see {@link Secret}
 * @param person id of the person
 * @param usedAt time of the latest request, at most {@link Sessions#WRITE_PERIOD} old in the store
 * @param yearLong whether the session lasts a year instead of ending when it is not used
 * @param address address of the browser at the sign-in
 * @param device what the browser said about itself
 */
public record Session(
    long id,
    String hash,
    long person,
    Instant startedAt,
    Instant usedAt,
    boolean yearLong,
    String address,
    String device) {
  /** Time without a request after which a session ends, if it is not year-long. */
  public static final Duration IDLE = Duration.ofHours(12);

  /** Time after which a year-long session ends. */
  public static final Duration YEAR = Duration.ofDays(365);

  /** The end of the session if no further request comes. */
  public Instant endsAt() {
    return yearLong ? startedAt.plus(YEAR) : usedAt.plus(IDLE);
  }

  boolean isOver(Instant now) {
    return !now.isBefore(endsAt());
  }

  Session withId(long newId) {
    return new Session(newId, hash, person, startedAt, usedAt, yearLong, address, device);
  }

  Session usedAgain(Instant now) {
    return new Session(id, hash, person, startedAt, now, yearLong, address, device);
  }

  /** Leaves out the hash, because this text may be logged. */
  @Override
  public String toString() {
    return "Session[" + id + ", person " + person + ']';
  }
}
