package tepidarium.rollup;

import java.time.Duration;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import tepidarium.container.Band;
import tepidarium.container.ContainerSettings;
import tepidarium.heat.BandTime;
import tepidarium.heat.DegreeHours;
import tepidarium.heat.HeatRule;
import tepidarium.heat.HeatSum;
import tepidarium.heat.Limit;
import tepidarium.heat.TemperatureHistogram;
import tepidarium.heat.TimeInBand;
import tepidarium.light.LightDose;
import tepidarium.reading.Quantity;
import tepidarium.reading.Samples;
import tepidarium.reading.Span;
import tepidarium.reading.TimeWeighted;

/**
 * The figures of one container over one hour or a part of it. Figures of adjoining rows can be
 * added.
 *
 * @param fromMs start, epoch milliseconds
 * @param heat with the container's base and ceiling
 * @param luxHours light dose, lux·h
 * @param cold time against the band's low temperature
 * @param hot time against its high temperature
 * @param light time against its light limit
 * @param dry time against its low humidity
 * @param histogram time spent at each temperature
 * @param summaries summary of the readings of each quantity; no entry without readings
 * @param timeWeighted time-weighted statistics of each quantity; no entry if no time is covered
 */
public record RollupRow(
    long fromMs,
    HeatSum heat,
    double luxHours,
    LimitTime cold,
    LimitTime hot,
    LimitTime light,
    LimitTime dry,
    TemperatureHistogram histogram,
    Map<Quantity, Summary> summaries,
    Map<Quantity, TimeWeighted> timeWeighted) {

  public RollupRow {
    summaries = Map.copyOf(summaries);
    timeWeighted = Map.copyOf(timeWeighted);
  }

  /**
   * Computes a row from the readings.
   *
   * @param samples samples of each quantity over the span, widened by {@code maxGap} on both sides
   */
  static RollupRow of(
      Map<Quantity, Samples> samples, Span span, ContainerSettings settings, Duration maxGap) {
    Samples temperature = samples.getOrDefault(Quantity.TEMPERATURE, Samples.EMPTY);
    Samples light = samples.getOrDefault(Quantity.LIGHT, Samples.EMPTY);
    Samples humidity = samples.getOrDefault(Quantity.HUMIDITY, Samples.EMPTY);
    Band band = settings.band();
    Map<Quantity, Summary> summaries = new EnumMap<>(Quantity.class);
    Map<Quantity, TimeWeighted> timeWeighted = new EnumMap<>(Quantity.class);
    samples.forEach(
        (quantity, found) -> {
          Summary summary = Summary.of(found, span);
          if (summary != null) {
            summaries.put(quantity, summary);
          }
          TimeWeighted statistics = TimeWeighted.of(found, span, maxGap);
          if (statistics.coveredMs() > 0) {
            timeWeighted.put(quantity, statistics);
          }
        });
    return new RollupRow(
        span.fromMs(),
        DegreeHours.of(temperature, span, HeatRule.of(settings), maxGap),
        LightDose.of(light, span, maxGap).luxHours(),
        limitTime(temperature, span, Limit.low(band.temperatureLowC()), maxGap),
        limitTime(temperature, span, Limit.high(band.temperatureHighC()), maxGap),
        limitTime(light, span, Limit.high(band.lightHighLux()), maxGap),
        limitTime(humidity, span, Limit.low(band.humidityLowPercent()), maxGap),
        TemperatureHistogram.of(temperature, span, maxGap),
        summaries,
        timeWeighted);
  }

  private static LimitTime limitTime(Samples samples, Span span, Limit limit, Duration maxGap) {
    BandTime time = TimeInBand.of(samples, span, limit, maxGap, Duration.ZERO);
    return new LimitTime(time.coveredMs(), time.outsideMs());
  }

  public @Nullable Summary summary(Quantity quantity) {
    return summaries.get(quantity);
  }

  /** Time-weighted statistics of one quantity over the covered time of this row. */
  public TimeWeighted timeWeighted(Quantity quantity) {
    return timeWeighted.getOrDefault(quantity, TimeWeighted.NONE);
  }

  /** The total heat of the rows. */
  public static HeatSum heat(List<RollupRow> rows) {
    return rows.stream().map(RollupRow::heat).reduce(HeatSum.ZERO, HeatSum::plus);
  }
}
