package tepidarium.heat;

import java.util.List;
import java.util.OptionalDouble;

/**
 * Time inside and outside one limit, and the excursions.
 *
 * @param coveredMs time covered by readings, ms
 * @param gapMs time without known value, ms
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
