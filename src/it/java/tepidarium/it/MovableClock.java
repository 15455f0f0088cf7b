package tepidarium.it;

import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.time.ZoneId;
import java.time.ZoneOffset;

/** A clock that stands until the test moves it. Safe for use by several threads. */
public final class MovableClock extends Clock {
  private volatile Instant now;

  public MovableClock(Instant start) {
    now = start;
  }

  public void set(Instant instant) {
    now = instant;
  }

  /** Moves the clock forward. */
  public void pass(Duration time) {
    now = now.plus(time);
  }

  @Override
  public Instant instant() {
    return now;
  }

  @Override
  public ZoneId getZone() {
    return ZoneOffset.UTC;
  }

  @Override
  public Clock withZone(ZoneId zone) {
    throw new UnsupportedOperationException("this clock tells instants only");
  }
}
