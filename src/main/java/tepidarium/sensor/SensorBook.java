package tepidarium.sensor;

import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.concurrent.ConcurrentHashMap;
import java.util.function.UnaryOperator;
import org.jspecify.annotations.Nullable;
import tepidarium.reading.DeviceStatus;
import tepidarium.reading.SensorId;

/**
 * Keeps the details and the newest status of each sensor in memory and in the store. Details are
 * stored at once. Statuses are stored at most once a minute and at the stop, because they change
 * with almost every message; a crash loses at most the statuses of the last minute. Thread-safe.
 */
public final class SensorBook implements AutoCloseable {
  private static final Duration SAVE_EVERY = Duration.ofMinutes(1);

  private final SensorStore store;
  private final Map<SensorId, SensorDetails> details;
  private final Map<SensorId, DeviceStatus> statuses;
  private final Set<SensorId> unsaved = ConcurrentHashMap.newKeySet();
  private @Nullable Instant savedAt;

  public SensorBook(SensorStore store) {
    this.store = store;
    this.details = new ConcurrentHashMap<>(store.details());
    this.statuses = new ConcurrentHashMap<>(store.statuses());
  }

  /** What the grower entered about a sensor; empty details if nothing. */
  public SensorDetails details(SensorId sensor) {
    return details.getOrDefault(sensor, SensorDetails.NONE);
  }

  /** What the grower entered about sensors. */
  public Map<SensorId, SensorDetails> allDetails() {
    return Map.copyOf(details);
  }

  /** Runs work that writes to the store directly, then reads the details again. */
  public synchronized void reloadAfter(Runnable work) {
    work.run();
    details.putAll(store.details());
  }

  /** Changes the details of a sensor. */
  public synchronized void change(SensorId sensor, UnaryOperator<SensorDetails> change) {
    SensorDetails old = details(sensor);
    SensorDetails changed = change.apply(old);
    if (!changed.equals(old)) {
      store.put(sensor, changed);
      details.put(sensor, changed);
    }
  }

  /** The newest status of a sensor; null if it never sent one. */
  public @Nullable DeviceStatus status(SensorId sensor) {
    return statuses.get(sensor);
  }

  /** Takes statuses that sensors reported. */
  public void reported(List<DeviceStatus> reported, Instant now) {
    for (DeviceStatus status : reported) {
      statuses.merge(status.sensor(), status, DeviceStatus::with);
      unsaved.add(status.sensor());
    }
    if (!unsaved.isEmpty()) {
      saveIfDue(now);
    }
  }

  private synchronized void saveIfDue(Instant now) {
    Instant last = savedAt;
    if (last == null || now.isBefore(last) || !now.isBefore(last.plus(SAVE_EVERY))) {
      // Set before the attempt, so that a broken store is tried once a minute.
      savedAt = now;
      save();
    }
  }

  private void save() {
    List<DeviceStatus> changed = new ArrayList<>();
    for (SensorId sensor : List.copyOf(unsaved)) {
      unsaved.remove(sensor);
      DeviceStatus status = statuses.get(sensor);
      if (status != null) {
        changed.add(status);
      }
    }
    try {
      if (!changed.isEmpty()) {
        store.putStatuses(changed);
      }
    } catch (RuntimeException e) {
      changed.forEach(status -> unsaved.add(status.sensor()));
      throw e;
    }
  }

  /** Stores the statuses that are not stored yet. */
  @Override
  public synchronized void close() {
    save();
  }
}
