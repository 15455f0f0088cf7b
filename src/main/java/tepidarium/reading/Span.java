package tepidarium.reading;

import java.time.Duration;
import java.time.Instant;

/**
 * A time span from a start (inclusive) to an end (exclusive).
 *
 * @throws IllegalArgumentException when the end lies before the start
 */
public record Span(Instant from, Instant to) {
  public Span {
    if (to.isBefore(from)) {
      throw new IllegalArgumentException("the end " + to + " lies before the start " + from);
    }
  }

  public static Span ofMillis(long fromMs, long toMs) {
    return new Span(Instant.ofEpochMilli(fromMs), Instant.ofEpochMilli(toMs));
  }

  public long fromMs() {
    return from.toEpochMilli();
  }

  public long toMs() {
    return to.toEpochMilli();
  }

  public Duration length() {
    return Duration.between(from, to);
  }

  public boolean contains(Instant instant) {
    return !instant.isBefore(from) && instant.isBefore(to);
  }

  public boolean overlaps(Span other) {
    return from.isBefore(other.to) && other.from.isBefore(to);
  }

  /** The part of this span that lies inside the other; empty at a boundary where none does. */
  public Span within(Span other) {
    Instant start = from.isAfter(other.from) ? from : other.from;
    Instant end = to.isBefore(other.to) ? to : other.to;
    return end.isBefore(start) ? new Span(start, start) : new Span(start, end);
  }
}
