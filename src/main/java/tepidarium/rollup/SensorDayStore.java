package tepidarium.rollup;

import java.util.List;
import java.util.OptionalLong;
import java.util.Set;
import tepidarium.fault.SensorDay;
import tepidarium.reading.SensorId;

/** Stores what the fault rules found, by sensor and day. Derived data. Thread-safe. */
public interface SensorDayStore {
  /** The stored days of a sensor from the first to the last, both included, in order of time. */
  List<SensorDay> read(SensorId sensor, long firstDay, long lastDay);

  /** Adds or replaces days. */
  void put(List<SensorDay> days);

  /**
   * Deletes the days of a sensor from the first to the last, both included. The deletion is durable
   * when this returns.
   */
  void delete(SensorId sensor, long firstDay, long lastDay);

  /** The numbers of the stored days of a sensor from the first to the last, both included. */
  Set<Long> stored(SensorId sensor, long firstDay, long lastDay);

  /** The latest stored day of any sensor; empty for none. */
  OptionalLong lastDay();
}
