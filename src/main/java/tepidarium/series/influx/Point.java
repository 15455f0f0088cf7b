package tepidarium.series.influx;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import tepidarium.reading.Arrival;
import tepidarium.reading.Quantity;
import tepidarium.reading.Reading;
import tepidarium.reading.SensorId;
import tepidarium.series.ScaledValue;

/**
 * One InfluxDB point: the values that the server has at one sensor and instant, and the values that
 * a batch adds. Not thread-safe.
 */
final class Point {
  /** Identifies a point. */
  record Key(SensorId sensor, long atMs) {}

  /** The outcome of adding a reading to a point. */
  enum Fit {
    ADDED,
    REPEATED,
    CONFLICT
  }

  private final Key key;
  private final Map<Quantity, Long> steps = new EnumMap<>(Quantity.class);
  private final Map<Quantity, Long> addedSteps = new EnumMap<>(Quantity.class);
  private final List<Reading> readings = new ArrayList<>(1);
  private int delivery;

  Point(Key key) {
    this.key = key;
  }

  Key key() {
    return key;
  }

  /** The readings that added a value. */
  List<Reading> readings() {
    return readings;
  }

  /** Records the values that the server already has. */
  void known(Map<Quantity, Double> values) {
    values.forEach((quantity, value) -> steps.put(quantity, ScaledValue.steps(value)));
  }

  /**
   * Adds the quantities that the point is missing, unless a value conflicts with the existing one.
   */
  Fit add(Reading reading) {
    Map<Quantity, Long> more = new EnumMap<>(Quantity.class);
    for (Quantity quantity : Quantity.values()) {
      Double value = reading.value(quantity);
      if (value != null) {
        long own = ScaledValue.steps(value);
        Long known = steps.get(quantity);
        if (known == null) {
          more.put(quantity, own);
        } else if (known != own) {
          return Fit.CONFLICT;
        }
      }
    }
    if (more.isEmpty()) {
      return Fit.REPEATED;
    }
    steps.putAll(more);
    addedSteps.putAll(more);
    readings.add(reading);
    Arrival arrival = reading.arrival();
    delivery = delivery == 0 && arrival != null ? arrival.delivery() : delivery;
    return Fit.ADDED;
  }

  /**
   * Appends the added values in line protocol. Sensor names need no escaping.
   *
   * @param always whether to write the delivery field even without a packet identifier
   */
  void appendTo(StringBuilder lines, String measurement, boolean always) {
    lines.append(measurement).append(",sensor=").append(key.sensor().name());
    char before = ' ';
    for (Map.Entry<Quantity, Long> field : addedSteps.entrySet()) {
      lines.append(before).append(field.getKey().key()).append('=');
      ScaledValue.append(lines, field.getValue());
      before = ',';
    }
    if (delivery > 0 || always) {
      lines.append(',').append(PointReader.DELIVERY).append('=').append(delivery).append('i');
    }
    lines.append(' ').append(key.atMs()).append('\n');
  }
}
