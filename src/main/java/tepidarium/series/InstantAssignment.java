package tepidarium.series;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import tepidarium.reading.Quantity;
import tepidarium.reading.Reading;
import tepidarium.reading.SensorId;

/**
 * Finds the instant at which each reading of a batch is stored: its own, or the next free one if
 * another value is stored there. The store first calls {@link #known} with each reading that it
 * holds at those instants and shortly after them. Not thread-safe.
 */
public final class InstantAssignment {
  private final boolean uncertain;
  private final Map<SensorId, Long> newestMs;
  private final Map<StoredInstant.Key, StoredInstant> instants = new LinkedHashMap<>();
  private final List<RefusedReading> refused = new ArrayList<>();
  private int repeated;

  /**
   * Begins a batch.
   *
   * @param uncertain whether the readings are of uncertain time; those that find no free instant in
   *     reach are stored after the newest one, and none is refused
   * @param newestMs newest stored instant of each sensor, epoch milliseconds; needed for readings
   *     of uncertain time
   */
  public InstantAssignment(boolean uncertain, Map<SensorId, Long> newestMs) {
    this.uncertain = uncertain;
    this.newestMs = new HashMap<>(newestMs);
  }

  /** Tells the values that the store has at an instant. */
  public void known(SensorId sensor, long atMs, Map<Quantity, Double> values) {
    at(sensor, atMs).known(values);
  }

  private StoredInstant at(SensorId sensor, long atMs) {
    return instants.computeIfAbsent(new StoredInstant.Key(sensor, atMs), StoredInstant::new);
  }

  /** Places a reading. */
  public void add(Reading reading) {
    long atMs = reading.at().toEpochMilli();
    for (int moved = 0; moved <= ReadingSink.MAX_SHIFT_MS; moved++) {
      if (addAt(reading, atMs + moved)) {
        return;
      }
    }
    if (uncertain) {
      addAt(reading, newestMs.getOrDefault(reading.sensor(), atMs) + 1);
    } else {
      refused.add(new RefusedReading(reading, ReadingSink.noFreeInstant(reading)));
    }
  }

  private boolean addAt(Reading reading, long atMs) {
    StoredInstant.AddResult fit = at(reading.sensor(), atMs).add(reading);
    if (fit == StoredInstant.AddResult.ADDED) {
      newestMs.merge(reading.sensor(), atMs, Math::max);
    }
    repeated += fit == StoredInstant.AddResult.REPEATED ? 1 : 0;
    return fit != StoredInstant.AddResult.CONFLICT;
  }

  /** The instants at which something is to be stored. */
  public List<StoredInstant> changed() {
    return instants.values().stream().filter(one -> !one.readings().isEmpty()).toList();
  }

  /** Number of readings whose values the store already has. */
  public int repeated() {
    return repeated;
  }

  public List<RefusedReading> refused() {
    return List.copyOf(refused);
  }

  /** The newest instant of each sensor, including those of the batch. */
  public Map<SensorId, Long> newestMs() {
    return Map.copyOf(newestMs);
  }
}
