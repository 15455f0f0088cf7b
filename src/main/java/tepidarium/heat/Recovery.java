package tepidarium.heat;

import java.time.Duration;
import java.time.Instant;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import tepidarium.reading.Samples;
import tepidarium.reading.SegmentVisitor;
import tepidarium.reading.Span;
import tepidarium.stats.Linear;

/**
 * The recovery of a container after an opening that cooled it.
 *
 * @param opened start of the opening
 * @param dropC fall below the mean temperature of the hour before, °C
 * @param minutes time from the end of the opening to the recovery, min; null if it was not seen
 *     within 6 h or before a gap
 */
public record Recovery(Instant opened, double dropC, @Nullable Double minutes) {
  /** Recovered means within this difference of the earlier mean, °C. Common practice, no source. */
  public static final double WITHIN_C = 0.5;

  static final Duration MAX_RECOVERY = Duration.ofHours(6);
  private static final Duration BEFORE = Duration.ofHours(1);
  private static final double MS_PER_MINUTE = 60_000;

  /** The span of readings needed for an opening: from 1 h before it to 6 h after it. */
  public static Span around(Span opening) {
    return new Span(opening.from().minus(BEFORE), opening.to().plus(MAX_RECOVERY));
  }

  /**
   * Evaluates one opening. Empty if it did not cool the container by more than {@link #WITHIN_C},
   * or if the temperature before it is not known.
   *
   * @param temperature readings over {@link #around}, °C
   */
  public static Optional<Recovery> of(Samples temperature, Span opening, Duration maxGap) {
    Follower before = new Follower(Double.NaN);
    Span hourBefore = new Span(opening.from().minus(BEFORE), opening.from());
    temperature.walk(hourBefore, maxGap.toMillis(), before);
    if (before.coveredMs == 0) {
      return Optional.empty();
    }
    double wasC = before.degreeMs / before.coveredMs;
    Follower after = new Follower(wasC - WITHIN_C);
    after.countFromMs = opening.toMs();
    Span until = new Span(opening.from(), opening.to().plus(MAX_RECOVERY));
    temperature.walk(until, maxGap.toMillis(), after);
    double dropC = wasC - after.lowestC;
    if (!(dropC > WITHIN_C)) {
      return Optional.empty();
    }
    Double minutes =
        after.backMs < 0 ? null : Math.max(0, after.backMs - opening.toMs()) / MS_PER_MINUTE;
    return Optional.of(new Recovery(opening.from(), dropC, minutes));
  }

  /** Finds the mean, the minimum before the recovery, and the time of the recovery. */
  private static final class Follower implements SegmentVisitor {
    private final double warmC;
    private double degreeMs;
    private long coveredMs;
    private double lowestC = Double.POSITIVE_INFINITY;
    private long countFromMs = Long.MAX_VALUE;
    private double backMs = -1;
    private boolean over;

    Follower(double warmC) {
      this.warmC = warmC;
    }

    @Override
    public void line(long startMs, double startC, long endMs, double endC) {
      degreeMs += (startC + endC) / 2 * (endMs - startMs);
      coveredMs += endMs - startMs;
      if (over) {
        return;
      }
      lowestC = Math.min(lowestC, Math.min(startC, endC));
      // A recovery needs an earlier fall below the level, and a closed lid.
      if (endMs > countFromMs && endC >= warmC && lowestC < warmC) {
        double share = startC >= warmC ? 0 : Linear.crossing(startC, endC, warmC);
        backMs = startMs + share * (endMs - startMs);
        over = true;
      }
    }

    @Override
    public void gap(long startMs, long endMs) {
      over |= lowestC < Double.POSITIVE_INFINITY;
    }
  }
}
