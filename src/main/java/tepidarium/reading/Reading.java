package tepidarium.reading;

import java.time.Instant;
import java.time.temporal.ChronoUnit;
import org.jspecify.annotations.Nullable;

/**
 * The values that one sensor reported at one instant; at least one quantity is present.
 *
 * @param at event time, whole milliseconds
 * @param temperatureC degrees Celsius
 * @param humidityPercent percent relative humidity
 * @param illuminanceLux lux
 * @param batteryV volts
 * @param arrival how it came, where its instant was taken from its arrival; null where the sensor
 *     sent the instant
 * @throws IllegalArgumentException when every quantity is absent or one is implausible
 */
public record Reading(
    SensorId sensor,
    Instant at,
    @Nullable Double temperatureC,
    @Nullable Double humidityPercent,
    @Nullable Double illuminanceLux,
    @Nullable Double batteryV,
    @Nullable Arrival arrival) {
  /**
   * Earliest valid time of a reading; an earlier one means that the sensor's clock was never set.
   */
  public static final Instant EARLIEST = Instant.parse("2010-01-01T00:00:00Z");

  public Reading {
    at = at.truncatedTo(ChronoUnit.MILLIS);
    boolean empty = true;
    for (Quantity quantity : Quantity.values()) {
      Double value = pick(quantity, temperatureC, humidityPercent, illuminanceLux, batteryV);
      if (value != null) {
        empty = false;
        if (!quantity.plausible(value)) {
          throw new IllegalArgumentException(
              quantity.key() + " " + value + " is outside " + quantity.range());
        }
      }
    }
    if (empty) {
      throw new IllegalArgumentException("a reading needs at least one quantity");
    }
  }

  /** A reading whose sensor sent the instant. */
  public Reading(
      SensorId sensor,
      Instant at,
      @Nullable Double temperatureC,
      @Nullable Double humidityPercent,
      @Nullable Double illuminanceLux,
      @Nullable Double batteryV) {
    this(sensor, at, temperatureC, humidityPercent, illuminanceLux, batteryV, null);
  }

  /** Returns the same values with another instant and arrival. */
  public Reading movedTo(Instant other, @Nullable Arrival otherArrival) {
    return new Reading(
        sensor, other, temperatureC, humidityPercent, illuminanceLux, batteryV, otherArrival);
  }

  /**
   * Whether it waited in the broker for an unknown time. Such a reading is stored, but not used for
   * heat, light, limits and charts.
   */
  public boolean uncertain() {
    return arrival != null && arrival.uncertain();
  }

  /** The value of one quantity, or null where it is absent. */
  public @Nullable Double value(Quantity quantity) {
    return pick(quantity, temperatureC, humidityPercent, illuminanceLux, batteryV);
  }

  private static @Nullable Double pick(
      Quantity quantity,
      @Nullable Double temperatureC,
      @Nullable Double humidityPercent,
      @Nullable Double illuminanceLux,
      @Nullable Double batteryV) {
    return switch (quantity) {
      case TEMPERATURE -> temperatureC;
      case HUMIDITY -> humidityPercent;
      case LIGHT -> illuminanceLux;
      case BATTERY -> batteryV;
    };
  }
}
