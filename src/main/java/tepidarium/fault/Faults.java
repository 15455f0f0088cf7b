package tepidarium.fault;

import java.time.Duration;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import tepidarium.reading.Quantity;
import tepidarium.reading.SensorId;

/** Orders faults and merges those that continue each other. */
public final class Faults {
  /** Faults of one kind at most this far apart are one stretch, 1 h. */
  public static final Duration JOIN = Stretches.JOIN;

  private static final long STUCK_JOIN_MS = 2 * Stretches.JOIN.toMillis();

  /** Only faults with equal keys can continue each other. */
  private record Key(
      SensorId sensor, @Nullable Quantity quantity, FaultKind kind, @Nullable SensorId other) {}

  private Faults() {}

  /** Merges the faults of one or more sensors, for example of successive days; newest first. */
  public static List<Fault> merged(List<Fault> faults) {
    List<Fault> ordered = new ArrayList<>(faults);
    ordered.sort(Comparator.comparing(Fault::from).thenComparing(Fault::to));
    List<Fault> merged = new ArrayList<>();
    Map<Key, Integer> last = new HashMap<>();
    for (Fault next : ordered) {
      Key key = new Key(next.sensor(), next.quantity(), next.kind(), next.other());
      Integer earlier = last.get(key);
      if (earlier != null && merged.get(earlier).continuesIn(next, joinMs(next.kind()))) {
        merged.set(earlier, merged.get(earlier).plus(next));
      } else {
        last.put(key, merged.size());
        merged.add(next);
      }
    }
    merged.sort(Comparator.comparing(Fault::from).reversed());
    return merged;
  }

  /** A stuck day has at least 20 readings, so they may lie more than 1 h apart. */
  private static long joinMs(FaultKind kind) {
    return kind == FaultKind.STUCK ? STUCK_JOIN_MS : Stretches.JOIN.toMillis();
  }
}
