package tepidarium.series.influx;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.EnumSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import tepidarium.reading.Quantity;
import tepidarium.reading.Reading;
import tepidarium.reading.SensorId;
import tepidarium.series.Fineness;

/** One sensor's instant: what the server has there, and what a batch adds to it. For one thread. */
final class Point {
  /** By what a point is known. */
  record Key(SensorId sensor, long atMs) {
    static Key of(Reading reading) {
      return new Key(reading.sensor(), reading.at().toEpochMilli());
    }
  }

  private final Key key;
  private final Set<Quantity> there = EnumSet.noneOf(Quantity.class);
  private final Map<Quantity, Long> addedSteps = new EnumMap<>(Quantity.class);
  private final List<Reading> readings = new ArrayList<>(1);

  Point(Key key) {
    this.key = key;
  }

  Key key() {
    return key;
  }

  /** The readings that added something. */
  List<Reading> readings() {
    return readings;
  }

  /** The server has these quantities already. */
  void known(Set<Quantity> quantities) {
    there.addAll(quantities);
  }

  /** Adds what the reading has and is still missing; whether that is anything. */
  boolean add(Reading reading) {
    boolean more = false;
    for (Quantity quantity : Quantity.values()) {
      Double value = reading.value(quantity);
      if (value != null && there.add(quantity)) {
        addedSteps.put(quantity, Fineness.steps(value));
        more = true;
      }
    }
    if (more) {
      readings.add(reading);
    }
    return more;
  }

  /** Appends what is added in line protocol; names of sensors need no escapes there. */
  void appendTo(StringBuilder lines) {
    lines.append(InfluxReadings.MEASUREMENT).append(",sensor=").append(key.sensor().name());
    char before = ' ';
    for (Map.Entry<Quantity, Long> field : addedSteps.entrySet()) {
      lines.append(before).append(field.getKey().key()).append('=');
      Fineness.append(lines, field.getValue());
      before = ',';
    }
    lines.append(' ').append(key.atMs()).append('\n');
  }
}
