package tepidarium.heat;

import java.util.List;
import java.util.OptionalDouble;

/**
 * How a record kept to one limit: covered and uncovered time, the time outside, and each excursion.
 *
 * @param coveredMs time covered by readings, ms
 * @param gapMs time in which nothing is known, ms
 * @param outsideMs covered time outside the limit, ms
 */
public record BandTime(long coveredMs, long gapMs, double outsideMs, List<Excursion> excursions) {
  public BandTime {
    excursions = List.copyOf(excursions);
  }

  /** The share of covered time inside the limit, 0 to 1; empty when no time is covered. */
  public OptionalDouble fractionInside() {
    return coveredMs == 0 ? OptionalDouble.empty() : OptionalDouble.of(1 - outsideMs / coveredMs);
  }

  public double outsideHours() {
    return outsideMs / HeatSum.MS_PER_HOUR;
  }
}
