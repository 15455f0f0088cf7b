package tepidarium.rollup;

import java.time.Duration;
import java.util.List;
import java.util.Optional;
import tepidarium.container.Container;
import tepidarium.heat.BandTime;
import tepidarium.heat.Limit;
import tepidarium.heat.TemperatureHistogram;
import tepidarium.heat.TimeInBand;
import tepidarium.history.CalibratedReadings;
import tepidarium.reading.Quantity;
import tepidarium.reading.Samples;
import tepidarium.reading.Span;
import tepidarium.reading.TimeWeighted;

/**
 * Computes {@link InsideBounds}. Temperature comes from the cached histograms, because it stays
 * near its limit for whole weeks. For other quantities, an hour that lies wholly on one side of a
 * moved limit, by its lowest and highest value, needs no readings; the readings of other hours are
 * queried.
 */
final class InsideBoundsReader {
  private final HourlyRollups rollups;
  private final HistogramCache histograms;
  private final CalibratedReadings calibrated;

  InsideBoundsReader(
      HourlyRollups rollups, HistogramCache histograms, CalibratedReadings calibrated) {
    this.rollups = rollups;
    this.histograms = histograms;
    this.calibrated = calibrated;
  }

  /**
   * The bounds over a span. Empty if no time is covered. Also empty if the error of a sensor is as
   * large as the high limit of light: the bounds would then be 0 and 1 even in the dark.
   */
  Optional<InsideBounds> read(Container container, Span span, Quantity quantity, Limit limit) {
    double covered = 0;
    double lower = 0;
    double upper = 0;
    // Each part has the errors of the sensors that were placed in it.
    for (Span part : calibrated.spansOfEqualSensors(container.id(), span)) {
      double error = calibrated.error(container.id(), part, quantity, limit.value());
      if (quantity == Quantity.LIGHT && error >= limit.value()) {
        return Optional.empty();
      }
      double inwards = limit.side() == Limit.Side.LOW ? error : -error;
      Limit strict = moved(limit, inwards);
      Limit lenient = moved(limit, -inwards);
      if (quantity == Quantity.TEMPERATURE) {
        TemperatureHistogram histogram = histograms.get(container, part);
        covered += histogram.coveredHours() * HourlyRollups.HOUR_MS;
        lower += insideMs(histogram, strict);
        upper += insideMs(histogram, lenient);
      } else {
        List<RollupRow> rows = rollups.rows(container, part);
        covered += rows.stream().mapToLong(row -> row.timeWeighted(quantity).coveredMs()).sum();
        lower += insideMs(container, part, rows, quantity, strict);
        upper += insideMs(container, part, rows, quantity, lenient);
      }
    }
    return covered == 0
        ? Optional.empty()
        : Optional.of(new InsideBounds(share(lower, covered), share(upper, covered)));
  }

  private static Limit moved(Limit limit, double by) {
    return new Limit(limit.side(), limit.value() + by);
  }

  /** A share from 0 to 1; sums of times may exceed the covered time by rounding. */
  private static double share(double ms, double coveredMs) {
    return Math.max(0, Math.min(1, ms / coveredMs));
  }

  private static double insideMs(TemperatureHistogram histogram, Limit limit) {
    double above = histogram.hoursAbove(limit.value());
    double inside = limit.side() == Limit.Side.LOW ? above : histogram.coveredHours() - above;
    return inside * HourlyRollups.HOUR_MS;
  }

  private double insideMs(
      Container container, Span span, List<RollupRow> rows, Quantity quantity, Limit limit) {
    double inside = 0;
    for (RollupRow row : rows) {
      TimeWeighted hour = row.timeWeighted(quantity);
      if (hour.coveredMs() > 0 && !limit.outside(hour.min()) && !limit.outside(hour.max())) {
        inside += hour.coveredMs();
      }
    }
    for (Span crossing : SpansAround.of(rows, row -> crosses(row, quantity, limit), span, 0)) {
      Samples samples = calibrated.samples(container.id(), quantity, crossing);
      BandTime time = TimeInBand.of(samples, crossing, limit, calibrated.maxGap(), Duration.ZERO);
      inside += time.coveredMs() - time.outsideMs();
    }
    return inside;
  }

  private static boolean crosses(RollupRow row, Quantity quantity, Limit limit) {
    TimeWeighted hour = row.timeWeighted(quantity);
    return hour.coveredMs() > 0 && limit.outside(hour.min()) != limit.outside(hour.max());
  }
}
