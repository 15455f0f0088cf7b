package tepidarium.rollup;

import java.util.List;
import tepidarium.container.Container;
import tepidarium.heat.DegreeHours;
import tepidarium.heat.HeatHours;
import tepidarium.heat.HeatRule;
import tepidarium.heat.HeatSum;
import tepidarium.heat.LocalHours;
import tepidarium.heat.TemperatureHistogram;
import tepidarium.history.CalibratedReadings;
import tepidarium.reading.Quantity;
import tepidarium.reading.Samples;
import tepidarium.reading.Span;
import tepidarium.reading.TimeWeighted;

/**
 * The rollup rows of one container over a span, loaded once; computes the heat of any part of the
 * span. Raw readings are queried only for partial hours, and for a base or ceiling for which the
 * rollups are not exact.
 */
public final class ContainerHours {
  private final Container container;
  private final Span span;
  private final List<RollupRow> rows;
  private final CalibratedReadings calibrated;
  private final HeatRule ownRule;

  ContainerHours(
      Container container, Span span, List<RollupRow> rows, CalibratedReadings calibrated) {
    this.container = container;
    this.span = span;
    this.rows = List.copyOf(rows);
    this.calibrated = calibrated;
    this.ownRule = HeatRule.of(container.settings());
  }

  List<RollupRow> rows() {
    return rows;
  }

  /** The heat of a part of the span. Time outside the loaded span counts as a gap. */
  public HeatSum heat(Span part, HeatRule rule) {
    Span loaded = part.within(span);
    HeatSum sum = HeatSum.gap(part.length().minus(loaded.length()).toMillis());
    long from = -1;
    for (int i = 0; i < rows.size() && rows.get(i).fromMs() < loaded.toMs(); i++) {
      long start = rows.get(i).fromMs();
      long end = end(i);
      if (end > loaded.fromMs()) {
        boolean whole = start >= loaded.fromMs() && end <= loaded.toMs();
        if (whole && isExact(rule)) {
          sum = sum.plus(fromReadings(from, start, rule)).plus(fromRow(rows.get(i), rule));
          from = -1;
        } else if (from < 0) {
          from = Math.max(start, loaded.fromMs());
        }
      }
    }
    return sum.plus(fromReadings(from, loaded.toMs(), rule));
  }

  private long end(int row) {
    return row + 1 < rows.size() ? rows.get(row + 1).fromMs() : span.toMs();
  }

  /** Computes heat from raw readings; zero if {@code fromMs} is negative or the span is empty. */
  private HeatSum fromReadings(long fromMs, long toMs, HeatRule rule) {
    if (fromMs < 0 || fromMs >= toMs) {
      return HeatSum.ZERO;
    }
    Span part = Span.ofMillis(fromMs, toMs);
    Samples temperature = calibrated.samples(container.id(), Quantity.TEMPERATURE, part);
    return DegreeHours.of(temperature, part, rule, calibrated.maxGap());
  }

  private boolean isExact(HeatRule rule) {
    return rule.equals(ownRule) || TemperatureHistogram.isExact(rule);
  }

  private HeatSum fromRow(RollupRow row, HeatRule rule) {
    return rule.equals(ownRule) ? row.heat() : row.histogram().heat(rule);
  }

  /**
   * Builds the hourly columns for the heat bench.
   *
   * @param rule heat rule, the same for all compared containers
   */
  public HeatHours bench(LocalHours hours, HeatRule rule) {
    HeatHours columns = new HeatHours(hours);
    for (int i = 0; i < rows.size(); i++) {
      RollupRow row = rows.get(i);
      if (end(i) - row.fromMs() == HourlyRollups.HOUR_MS) {
        HeatSum heat =
            isExact(rule) ? fromRow(row, rule) : fromReadings(row.fromMs(), end(i), rule);
        TimeWeighted temperature = row.timeWeighted(Quantity.TEMPERATURE);
        double errorC =
            calibrated.temperatureErrorC(
                container.id(), Span.ofMillis(row.fromMs(), end(i)), temperature.mean());
        double outsideMs = row.cold().outsideMs() + row.hot().outsideMs();
        columns.add(
            row.fromMs(), heat, outsideMs, temperature, row.histogram().sensorError(rule, errorC));
      }
    }
    return columns;
  }
}
