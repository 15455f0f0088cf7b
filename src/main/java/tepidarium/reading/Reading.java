package tepidarium.reading;

import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.Collections;
import java.util.EnumMap;
import java.util.Map;
import org.jspecify.annotations.Nullable;

/**
 * The values that one sensor reported at one instant; at least one quantity is present.
 *
 * @param at event time, whole milliseconds
 * @param values in the units of the quantities
 * @param arrival how it came, where its instant was taken from its arrival; null where the sensor
 *     sent the instant
 * @throws IllegalArgumentException when every quantity is absent or one is implausible
 */
public record Reading(
    SensorId sensor, Instant at, Map<Quantity, Double> values, @Nullable Arrival arrival) {
  /**
   * Earliest valid time of a reading; an earlier one means that the sensor's clock was never set.
   */
  public static final Instant EARLIEST = Instant.parse("2010-01-01T00:00:00Z");

  public Reading {
    at = at.truncatedTo(ChronoUnit.MILLIS);
    if (values.isEmpty()) {
      throw new IllegalArgumentException("a reading needs at least one quantity");
    }
    values = Collections.unmodifiableMap(new EnumMap<>(values));
    values.forEach(
        (quantity, value) -> {
          if (!quantity.plausible(value)) {
            throw new IllegalArgumentException(
                quantity.key() + " " + value + " is outside " + quantity.range());
          }
        });
  }

  /** Returns the same values with another instant and arrival. */
  public Reading movedTo(Instant other, @Nullable Arrival otherArrival) {
    return new Reading(sensor, other, values, otherArrival);
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
    return values.get(quantity);
  }
}
