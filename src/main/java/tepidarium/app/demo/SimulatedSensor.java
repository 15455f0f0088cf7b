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
 * Simulates a sensor: the climate around it, its measurement errors and its faults.
 *
 * @param quantities quantities that it reports
 * @param temperatureBiasC systematic error of its temperature, °C; positive if too high
 */
record SimulatedSensor(
    SensorId id,
    Climate climate,
    Set<Quantity> quantities,
    double temperatureBiasC,
    Faults faults,
    Noise noise) {
  static final Duration PERIOD = Duration.ofMinutes(5);
  private static final double PERIOD_SECONDS = PERIOD.toSeconds();
  private static final double FULL_BATTERY_V = 4.12;
  private static final double DRAIN_V_PER_DAY = 0.009;
  private static final double FRESH_AIR_PPM = 700;
  private static final double RESPIRATION_PPM_PER_DAY = 650;
  private static final double DAYS_BETWEEN_VENTILATIONS = 7;
  private static final double INITIAL_MOISTURE_PERCENT = 52;
  private static final double DRYING_PERCENT_PER_DAY = 0.45;

  /**
   * The faults of a sensor.
   *
   * @param silentFrom start of its silence; null if it is never silent
   * @param lost time span of readings that were never sent; null for none
   * @param late time span of readings that were sent after all others; null for none
   */
  record Faults(@Nullable Instant silentFrom, @Nullable Span lost, @Nullable Span late) {
    static final Faults NONE = new Faults(null, null, null);

    boolean sendsAt(Instant at) {
      return (silentFrom == null || at.isBefore(silentFrom))
          && (lost == null || !lost.contains(at));
    }

    boolean isLate(Instant at) {
      return late != null && late.contains(at);
    }
  }

  /** Returns the times in the span at which it measured and sent a reading. */
  List<Instant> times(Span span) {
    Instant first = noise.origin().plusSeconds((long) noise.between(0, PERIOD_SECONDS, 0));
    long before = Math.max(0, Duration.between(first, span.from()).toMillis());
    long steps = (before + PERIOD.toMillis() - 1) / PERIOD.toMillis();
    return Stream.iterate(
            first.plus(PERIOD.multipliedBy(steps)),
            at -> at.isBefore(span.to()),
            at -> at.plus(PERIOD))
        .filter(faults::sendsAt)
        .toList();
  }

  /** Returns the reading at an instant, rounded to the resolution of the sensor. */
  Reading reading(Instant at) {
    double temperatureC = climate.temperatureC().at(at) + temperatureBiasC + 0.04 * noise.white(at);
    double humidityPercent =
        climate.humidityPercent().at(at) + 0.15 * noise.independent(1).white(at);
    double batteryV =
        FULL_BATTERY_V - DRAIN_V_PER_DAY * DemoCalendar.hours(noise.origin(), at) / 24;
    Map<Quantity, Double> values = new EnumMap<>(Quantity.class);
    put(values, Quantity.TEMPERATURE, temperatureC, 10);
    put(values, Quantity.HUMIDITY, Math.min(100, humidityPercent), 10);
    put(values, Quantity.LIGHT, climate.illuminanceLux().at(at), 1);
    put(values, Quantity.BATTERY, batteryV, 100);
    double days = DemoCalendar.hours(noise.origin(), at) / 24;
    double daysSinceVentilation = days % DAYS_BETWEEN_VENTILATIONS;
    double ppm =
        FRESH_AIR_PPM
            + RESPIRATION_PPM_PER_DAY * daysSinceVentilation
            + 30 * noise.independent(2).white(at);
    put(values, Quantity.CARBON_DIOXIDE, ppm, 1);
    double moisturePercent =
        INITIAL_MOISTURE_PERCENT
            - DRYING_PERCENT_PER_DAY * days
            + 0.2 * noise.independent(3).white(at);
    put(values, Quantity.MEDIUM_MOISTURE, moisturePercent, 10);
    return new Reading(id, at, values, null);
  }

  private void put(
      Map<Quantity, Double> values, Quantity quantity, double value, double stepsPerUnit) {
    if (quantities.contains(quantity)) {
      values.put(quantity, Math.rint(value * stepsPerUnit) / stepsPerUnit);
    }
  }
}
