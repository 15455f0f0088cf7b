package tepidarium.series;

import java.util.ArrayList;
import java.util.Collections;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import tepidarium.reading.Arrival;
import tepidarium.reading.Quantity;
import tepidarium.reading.Reading;
import tepidarium.reading.SensorId;

/**
 * The values that a store has of one sensor at one instant, and the values that a batch adds. Not
 * thread-safe.
 */
public final class StoredInstant {
  /** Identifies it. */
  public record Key(SensorId sensor, long atMs) {}

  /** The outcome of adding a reading. */
  public enum AddResult {
    ADDED,
    REPEATED,
    CONFLICT
  }

  private final Key key;
  private final Map<Quantity, Long> steps = new EnumMap<>(Quantity.class);
  private final Map<Quantity, Long> addedSteps = new EnumMap<>(Quantity.class);
  private final List<Reading> readings = new ArrayList<>(1);
  private int delivery;

  StoredInstant(Key key) {
    this.key = key;
  }

  public Key key() {
    return key;
  }

  /** The readings that added a value. */
  public List<Reading> readings() {
    return readings;
  }

  /** The added values, in steps of {@link ScaledValue}. */
  public Map<Quantity, Long> addedSteps() {
    return Collections.unmodifiableMap(addedSteps);
  }

  /** The packet identifier of the first added reading that has one; 0 if none has. */
  public int delivery() {
    return delivery;
  }

  /** Records the values that the store already has. */
  void known(Map<Quantity, Double> values) {
    values.forEach((quantity, value) -> steps.put(quantity, ScaledValue.steps(value)));
  }

  /** Adds the quantities that are missing, unless a value conflicts with the existing one. */
  AddResult add(Reading reading) {
    Map<Quantity, Long> more = new EnumMap<>(Quantity.class);
    for (Quantity quantity : Quantity.values()) {
      Double value = reading.value(quantity);
      if (value != null) {
        long own = ScaledValue.steps(value);
        Long known = steps.get(quantity);
        if (known == null) {
          more.put(quantity, own);
        } else if (known != own) {
          return AddResult.CONFLICT;
        }
      }
    }
    if (more.isEmpty()) {
      return AddResult.REPEATED;
    }
    steps.putAll(more);
    addedSteps.putAll(more);
    readings.add(reading);
    Arrival arrival = reading.arrival();
    delivery = delivery == 0 && arrival != null ? arrival.delivery() : delivery;
    return AddResult.ADDED;
  }
}
