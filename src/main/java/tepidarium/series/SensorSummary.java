package tepidarium.series;

import java.time.Instant;
import java.util.Collections;
import java.util.EnumMap;
import java.util.Map;
import tepidarium.reading.Quantity;
import tepidarium.reading.Reading;

/**
 * Summarises the readings of one sensor: first and last time, and the latest value of each
 * quantity.
 *
 * @param first event time of its earliest reading
 * @param last event time of its latest reading
 * @param latest the newest raw value of each quantity that the sensor has reported
 */
public record SensorSummary(Instant first, Instant last, Map<Quantity, Value> latest) {
  /** A raw value and its event time. */
  public record Value(double value, Instant at) {}

  public SensorSummary {
    // An enum map is cheap to copy; each incoming reading creates a new summary.
    Map<Quantity, Value> copy = new EnumMap<>(Quantity.class);
    copy.putAll(latest);
    latest = Collections.unmodifiableMap(copy);
  }

  public static SensorSummary of(Reading reading) {
    return new SensorSummary(reading.at(), reading.at(), values(reading));
  }

  /**
   * Returns this summary with one more reading added. Readings may arrive in any order. Of two
   * values at the same instant, the one that arrived first stays, as in the store.
   */
  public SensorSummary with(Reading reading) {
    return with(of(reading));
  }

  /** Merges another summary of the same sensor. */
  public SensorSummary with(SensorSummary other) {
    Map<Quantity, Value> merged = new EnumMap<>(Quantity.class);
    merged.putAll(latest);
    other.latest.forEach((quantity, value) -> merged.merge(quantity, value, SensorSummary::newer));
    return new SensorSummary(
        other.first.isBefore(first) ? other.first : first,
        other.last.isAfter(last) ? other.last : last,
        merged);
  }

  /**
   * Removes values later than the instant, after the clock has been set back. The sensor then
   * counts as last heard at the instant.
   */
  public SensorSummary forgetAfter(Instant instant) {
    if (!last.isAfter(instant)) {
      return this;
    }
    Map<Quantity, Value> kept = new EnumMap<>(Quantity.class);
    latest.forEach(
        (quantity, value) -> {
          if (!value.at().isAfter(instant)) {
            kept.put(quantity, value);
          }
        });
    return new SensorSummary(first.isAfter(instant) ? instant : first, instant, kept);
  }

  private static Value newer(Value known, Value come) {
    return come.at().isAfter(known.at()) ? come : known;
  }

  private static Map<Quantity, Value> values(Reading reading) {
    Map<Quantity, Value> values = new EnumMap<>(Quantity.class);
    for (Quantity quantity : Quantity.values()) {
      Double value = reading.value(quantity);
      if (value != null) {
        values.put(quantity, new Value(value, reading.at()));
      }
    }
    return values;
  }
}
