package tepidarium.app.demo;

import java.time.Duration;
import java.time.Instant;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import tepidarium.reading.Quantity;
import tepidarium.reading.Reading;
import tepidarium.reading.SensorId;
import tepidarium.reading.Span;

/**
 * An invented sensor: what it feels, how well it measures, and what goes wrong with it.
 *
 * @param measures the quantities it reports
 * @param readsHighC by how much its temperature is too high, °C
 */
record SimulatedSensor(
    SensorId sensor,
    Climate climate,
    Set<Quantity> measures,
    double readsHighC,
    Faults faults,
    Noise noise) {
  static final Duration PERIOD = Duration.ofMinutes(5);
  private static final double PERIOD_SECONDS = PERIOD.toSeconds();
  private static final double FULL_V = 4.12;
  private static final double DRAIN_V_PER_DAY = 0.009;
  private static final double FRESH_PPM = 700;
  private static final double BREATHED_PPM_PER_DAY = 650;
  private static final double DAYS_BETWEEN_AIRINGS = 7;
  private static final double MOIST_PERCENT = 52;
  private static final double DRIED_PERCENT_PER_DAY = 0.45;

  /**
   * What goes wrong.
   *
   * @param silentFrom it says nothing from then on; null for never
   * @param lost readings of this stretch were never sent; null for none
   * @param late readings of this stretch came after all others; null for none
   */
  record Faults(@Nullable Instant silentFrom, @Nullable Span lost, @Nullable Span late) {
    static final Faults NONE = new Faults(null, null, null);

    boolean speaksAt(Instant at) {
      return (silentFrom == null || at.isBefore(silentFrom))
          && (lost == null || !lost.contains(at));
    }

    boolean lateAt(Instant at) {
      return late != null && late.contains(at);
    }
  }

  /** The times at which it measured within the span and did not lose the reading. */
  List<Instant> times(Span span) {
    Instant first = noise.origin().plusSeconds((long) noise.between(0, PERIOD_SECONDS, 0));
    long before = Math.max(0, Duration.between(first, span.from()).toMillis());
    long steps = (before + PERIOD.toMillis() - 1) / PERIOD.toMillis();
    return Stream.iterate(
            first.plus(PERIOD.multipliedBy(steps)),
            at -> at.isBefore(span.to()),
            at -> at.plus(PERIOD))
        .filter(faults::speaksAt)
        .toList();
  }

  /** What it reports at that time, rounded as such sensors do. */
  Reading reading(Instant at) {
    double temperatureC = climate.temperatureC().at(at) + readsHighC + 0.04 * noise.white(at);
    double humidity = climate.humidityPercent().at(at) + 0.15 * noise.other(1).white(at);
    double batteryV = FULL_V - DRAIN_V_PER_DAY * DemoCalendar.hours(noise.origin(), at) / 24;
    Map<Quantity, Double> values = new EnumMap<>(Quantity.class);
    put(values, Quantity.TEMPERATURE, temperatureC, 10);
    put(values, Quantity.HUMIDITY, Math.min(100, humidity), 10);
    put(values, Quantity.LIGHT, climate.illuminanceLux().at(at), 1);
    put(values, Quantity.BATTERY, batteryV, 100);
    double days = DemoCalendar.hours(noise.origin(), at) / 24;
    double sinceAired = days % DAYS_BETWEEN_AIRINGS;
    double ppm = FRESH_PPM + BREATHED_PPM_PER_DAY * sinceAired + 30 * noise.other(2).white(at);
    put(values, Quantity.CARBON_DIOXIDE, ppm, 1);
    double moisture = MOIST_PERCENT - DRIED_PERCENT_PER_DAY * days + 0.2 * noise.other(3).white(at);
    put(values, Quantity.MEDIUM_MOISTURE, moisture, 10);
    return new Reading(sensor, at, values, null);
  }

  private void put(
      Map<Quantity, Double> values, Quantity quantity, double value, double stepsPerUnit) {
    if (measures.contains(quantity)) {
      values.put(quantity, Math.rint(value * stepsPerUnit) / stepsPerUnit);
    }
  }
}
