package tepidarium.heat;

import java.time.Duration;
import tepidarium.reading.Samples;
import tepidarium.reading.SegmentVisitor;
import tepidarium.reading.Span;
import tepidarium.stats.Linear;

/**
 * Calculates degree-hours: the integral over time of max(0, min(T, ceiling) − base), °C·h. T is
 * linear between neighbouring readings, so crossings of base and ceiling are exact. An interval
 * between readings longer than {@code maxGap} is a gap and adds no heat; an interval of exactly
 * {@code maxGap} is covered. {@link Samples} are sorted and unique. Without samples the whole span
 * is a gap.
 */
public final class DegreeHours {
  private DegreeHours() {}

  /**
   * Adds up the heat of a span.
   *
   * @param temperature °C
   */
  public static HeatSum of(Samples temperature, Span span, HeatRule rule, Duration maxGap) {
    Adder adder = new Adder(rule);
    temperature.walk(span, maxGap.toMillis(), adder);
    return adder.sum(temperature.leftOutMs(span, maxGap.toMillis()));
  }

  private static final class Adder implements SegmentVisitor {
    private final HeatRule rule;
    private double degreeMs;
    private double aboveMs;
    private long coveredMs;
    private long gapMs;

    Adder(HeatRule rule) {
      this.rule = rule;
    }

    @Override
    public void line(long startMs, double startC, long endMs, double endC) {
      long length = endMs - startMs;
      degreeMs += rule.meanGain(startC, endC) * length;
      aboveMs += Linear.shareAbove(startC, endC, rule.baseC()) * length;
      coveredMs += length;
    }

    @Override
    public void gap(long startMs, long endMs) {
      gapMs += endMs - startMs;
    }

    HeatSum sum(long leftOutMs) {
      return new HeatSum(
          degreeMs / HeatSum.MS_PER_HOUR,
          aboveMs / HeatSum.MS_PER_HOUR,
          coveredMs,
          gapMs,
          leftOutMs);
    }
  }
}
