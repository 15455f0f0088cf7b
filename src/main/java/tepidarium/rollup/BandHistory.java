package tepidarium.rollup;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.Function;
import java.util.function.Predicate;
import org.jspecify.annotations.Nullable;
import tepidarium.container.Container;
import tepidarium.heat.BandTime;
import tepidarium.heat.Excursion;
import tepidarium.heat.HeatRule;
import tepidarium.heat.Limit;
import tepidarium.heat.LostHeat;
import tepidarium.heat.TimeInBand;
import tepidarium.history.CalibratedReadings;
import tepidarium.reading.Quantity;
import tepidarium.reading.Samples;
import tepidarium.reading.Span;

/** Answers how long a container was outside the limits of its band, and when. Thread-safe. */
public final class BandHistory {
  /**
   * An excursion with its heat loss.
   *
   * @param degreeHoursLost heat lost to cold, °C·h; null for limits other than low temperature
   */
  public record ExcursionDetail(Excursion excursion, @Nullable Double degreeHoursLost) {}

  /** Time against one limit of the band, and the excursions beyond it. */
  public record LimitSummary(Limit limit, LimitTime time, List<ExcursionDetail> excursions) {}

  /** Time against each limit of a band. */
  public record AllLimits(
      LimitSummary cold, LimitSummary hot, LimitSummary bright, LimitSummary dry) {}

  private final HourlyRollups rollups;
  private final CalibratedReadings calibrated;
  private final InsideBoundsReader boundsReader;

  BandHistory(HourlyRollups rollups, HistogramCache histograms, CalibratedReadings calibrated) {
    this.rollups = rollups;
    this.calibrated = calibrated;
    this.boundsReader = new InsideBoundsReader(rollups, histograms, calibrated);
  }

  /** Time outside each limit, computed from one load of the rollups. */
  public AllLimits allLimits(Container container, Span span) {
    List<RollupRow> rows = rollups.rows(container, span);
    return new AllLimits(
        cold(container, span, rows),
        hot(container, span, rows),
        bright(container, span, rows),
        dry(container, span, rows));
  }

  /** Time outside the low temperature limit, with the heat loss of each excursion. */
  public LimitSummary cold(Container container, Span span) {
    return cold(container, span, rollups.rows(container, span));
  }

  LimitSummary cold(Container container, Span span, List<RollupRow> rows) {
    Limit limit = Limit.low(container.band().temperatureLowC());
    return limitSummary(container, span, rows, Quantity.TEMPERATURE, limit, RollupRow::cold, true);
  }

  /** Time outside the high temperature limit. */
  public LimitSummary hot(Container container, Span span) {
    return hot(container, span, rollups.rows(container, span));
  }

  LimitSummary hot(Container container, Span span, List<RollupRow> rows) {
    Limit limit = Limit.high(container.band().temperatureHighC());
    return limitSummary(container, span, rows, Quantity.TEMPERATURE, limit, RollupRow::hot, false);
  }

  /** Bounds of the share of covered time inside a limit; see {@link InsideBounds}. */
  public Optional<InsideBounds> insideBounds(
      Container container, Span span, Quantity quantity, Limit limit) {
    return boundsReader.read(container, span, quantity, limit);
  }

  private LimitSummary bright(Container container, Span span, List<RollupRow> rows) {
    Limit limit = Limit.high(container.band().lightHighLux());
    return limitSummary(container, span, rows, Quantity.LIGHT, limit, RollupRow::light, false);
  }

  /** Time outside the low humidity limit. */
  public LimitSummary dry(Container container, Span span) {
    return dry(container, span, rollups.rows(container, span));
  }

  LimitSummary dry(Container container, Span span, List<RollupRow> rows) {
    Limit limit = Limit.low(container.band().humidityLowPercent());
    return limitSummary(container, span, rows, Quantity.HUMIDITY, limit, RollupRow::dry, false);
  }

  private LimitSummary limitSummary(
      Container container,
      Span span,
      List<RollupRow> rows,
      Quantity quantity,
      Limit limit,
      Function<RollupRow, LimitTime> time,
      boolean heatIsLost) {
    LimitTime total = rows.stream().map(time).reduce(LimitTime.NONE, LimitTime::plus);
    Predicate<RollupRow> outside = row -> time.apply(row).outsideMs() > 0;
    List<ExcursionDetail> excursions = new ArrayList<>();
    for (Span part : SpansAround.of(rows, outside, span, HourlyRollups.HOUR_MS)) {
      Samples samples = calibrated.samples(container.id(), quantity, part);
      BandTime found =
          TimeInBand.of(samples, part, limit, calibrated.maxGap(), ContainerHistory.DEFAULT_JOIN);
      for (Excursion excursion : found.excursions()) {
        Double lost = heatIsLost ? degreeHoursLost(container, samples, excursion) : null;
        excursions.add(new ExcursionDetail(excursion, lost));
      }
    }
    return new LimitSummary(limit, total, excursions);
  }

  private double degreeHoursLost(Container container, Samples samples, Excursion excursion) {
    return LostHeat.of(
        samples,
        new Span(excursion.start(), excursion.lastSeen()),
        HeatRule.of(container.settings()),
        container.band().temperatureLowC(),
        calibrated.maxGap());
  }
}
