package tepidarium.sensor;

import java.time.Duration;
import java.time.Instant;
import java.util.Arrays;
import org.jspecify.annotations.Nullable;
import tepidarium.reading.Span;
import tepidarium.stats.Median;

/**
 * How regularly a sensor reports, from the instants of its readings.
 *
 * @param usualInterval median of the newest intervals between readings; null if there are fewer
 *     than three
 * @param lastDay gaps of the last 24 h
 * @param lastWeek gaps of the last 7 days
 */
public record ReportingRecord(@Nullable Duration usualInterval, Gaps lastDay, Gaps lastWeek) {
  public static final Duration DAY = Duration.ofDays(1);
  public static final Duration WEEK = Duration.ofDays(7);

  /** Number of newest intervals that count for the usual one; common practice, no source. */
  public static final int INTERVALS = 100;

  private static final int FEWEST_INTERVALS = 3;

  /** Readings closer than this are of one moment, as in a batch; common practice, no source. */
  private static final long ONE_MOMENT_MS = Duration.ofMinutes(1).toMillis();

  /**
   * A sensor with moments closer than this reports all the time: one reading every 59 s makes
   * moments almost two minutes apart.
   */
  private static final Duration STEADY = Duration.ofMinutes(3);

  /** A sensor is late after this many usual intervals; common practice, no source. */
  public static final int LATE_INTERVALS = 3;

  /** A sensor is not late before this; common practice, no source. */
  private static final Duration LATE_AT_LEAST = Duration.ofMinutes(5);

  /**
   * Gaps in a span, and how long they are in total, cut at the ends of the span. The time since the
   * last reading is one of them if it is long enough.
   */
  public record Gaps(int count, Duration total) {
    static final Gaps NONE = new Gaps(0, Duration.ZERO);
  }

  /**
   * Computes the record.
   *
   * @param atMs instants of readings, ascending, from a week and {@code maxGap} before the end, and
   *     at least those of the day before the last reading
   * @param first the sensor's first reading; gaps before it do not count
   * @param end now, or when the sensor was retired
   * @param maxGap two readings further apart have a gap between them, as for the heat of containers
   */
  public static ReportingRecord of(long[] atMs, Instant first, Instant end, Duration maxGap) {
    return new ReportingRecord(
        usualInterval(atMs),
        gaps(atMs, first, end, DAY, maxGap),
        gaps(atMs, first, end, WEEK, maxGap));
  }

  /**
   * The median of the newest intervals, of at most {@link #INTERVALS}; null for fewer than three.
   * Readings less than a minute apart count as one, so that a sensor with a message for each value,
   * or with batches, has the interval between these. A sensor whose readings always come so fast
   * has the interval between readings.
   *
   * @param atMs instants of readings, ascending
   */
  public static @Nullable Duration usualInterval(long[] atMs) {
    Duration apart = median(moments(atMs));
    return apart == null || apart.compareTo(STEADY) >= 0 ? apart : median(atMs);
  }

  /** The instants without those less than a minute after the last one kept. */
  public static long[] moments(long[] atMs) {
    long[] kept = new long[atMs.length];
    int count = 0;
    for (long at : atMs) {
      if (count == 0 || at - kept[count - 1] >= ONE_MOMENT_MS) {
        kept[count++] = at;
      }
    }
    return Arrays.copyOf(kept, count);
  }

  private static @Nullable Duration median(long[] atMs) {
    int count = Math.min(INTERVALS, atMs.length - 1);
    if (count < FEWEST_INTERVALS) {
      return null;
    }
    double[] intervals = new double[count];
    for (int i = 0; i < count; i++) {
      int later = atMs.length - 1 - i;
      intervals[i] = atMs[later] - atMs[later - 1];
    }
    return Duration.ofMillis((long) Median.of(intervals));
  }

  private static Gaps gaps(
      long[] atMs, Instant first, Instant end, Duration length, Duration maxGap) {
    Instant begin = end.minus(length);
    Instant from = first.isAfter(begin) ? first : begin;
    if (!from.isBefore(end)) {
      return Gaps.NONE;
    }
    Span span = new Span(from, end);
    int count = 0;
    long total = 0;
    // Without a reading before the span, the last one is longer ago than the longest gap.
    long last = span.fromMs() - maxGap.toMillis() - 1;
    for (int i = 0; i <= atMs.length; i++) {
      long next = i == atMs.length ? span.toMs() : Math.min(atMs[i], span.toMs());
      if (next > span.fromMs() && next - last > maxGap.toMillis()) {
        count++;
        total += next - Math.max(last, span.fromMs());
      }
      last = Math.max(last, next);
    }
    return new Gaps(count, Duration.ofMillis(total));
  }

  /** By how much a reading is overdue; zero if none is, null if the usual interval is not known. */
  public @Nullable Duration lateness(Instant last, Instant now) {
    Duration usual = usualInterval;
    if (usual == null) {
      return null;
    }
    Duration overdue = Duration.between(last, now).minus(usual);
    return overdue.isNegative() ? Duration.ZERO : overdue;
  }

  /**
   * Whether the sensor is late: not heard for three usual intervals and five minutes. A sensor is
   * not late before its usual interval is known.
   */
  public boolean late(Instant last, Instant now) {
    Duration usual = usualInterval;
    if (usual == null) {
      return false;
    }
    Duration limit = usual.multipliedBy(LATE_INTERVALS);
    Duration allowed = limit.compareTo(LATE_AT_LEAST) < 0 ? LATE_AT_LEAST : limit;
    return Duration.between(last, now).compareTo(allowed) > 0;
  }
}
