package tepidarium.series;

import java.time.Instant;
import java.util.Collections;
import java.util.EnumMap;
import java.util.Map;
import tepidarium.reading.Quantity;
import tepidarium.reading.Reading;

/**
 * What was heard of one sensor.
 *
 * @param first event time of its earliest reading
 * @param last event time of its latest reading
 * @param latest its newest raw value of each quantity it ever reported
 */
public record SensorSummary(Instant first, Instant last, Map<Quantity, Value> latest) {
  /** A raw value and its event time. */
  public record Value(double value, Instant at) {}

  public SensorSummary {
    // In an enum map, as this is made anew for every reading that comes.
    Map<Quantity, Value> copy = new EnumMap<>(Quantity.class);
    copy.putAll(latest);
    latest = Collections.unmodifiableMap(copy);
  }

  public static SensorSummary of(Reading reading) {
    return new SensorSummary(reading.at(), reading.at(), values(reading));
  }

  /**
   * This, after one more reading, in whatever order they come. Of two values at one instant the
   * first to come stays, as it does in the store.
   */
  public SensorSummary with(Reading reading) {
    return with(of(reading));
  }

  /** This and what was heard elsewhere of the same sensor. */
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
   * This without what lies after the instant, for a clock that has been set back: what was heard
   * then counts as heard at the instant, and its values are forgotten.
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
