package tepidarium.app.demo;

import java.time.Duration;
import java.time.Instant;
import java.util.List;
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
record Node(
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
    double batteryV = FULL_V - DRAIN_V_PER_DAY * Almanac.hours(noise.origin(), at) / 24;
    return new Reading(
        sensor,
        at,
        measured(Quantity.TEMPERATURE, temperatureC, 10),
        measured(Quantity.HUMIDITY, Math.min(100, humidity), 10),
        measured(Quantity.LIGHT, climate.illuminanceLux().at(at), 1),
        measured(Quantity.BATTERY, batteryV, 100));
  }

  private @Nullable Double measured(Quantity quantity, double value, double stepsPerUnit) {
    return measures.contains(quantity) ? Math.rint(value * stepsPerUnit) / stepsPerUnit : null;
  }
}
