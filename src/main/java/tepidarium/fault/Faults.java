package tepidarium.fault;

import java.time.Duration;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;

/** Orders faults and merges those that continue each other. */
public final class Faults {
  /** Faults of one kind at most this far apart are one stretch, 1 h. */
  public static final Duration JOIN = Stretches.JOIN;

  private static final long STUCK_JOIN_MS = 2 * Stretches.JOIN.toMillis();

  private Faults() {}

  /** Merges the faults of one or more sensors, for example of successive days; newest first. */
  public static List<Fault> merged(List<Fault> faults) {
    List<Fault> ordered = new ArrayList<>(faults);
    ordered.sort(Comparator.comparing(Fault::from).thenComparing(Fault::to));
    List<Fault> merged = new ArrayList<>();
    for (Fault next : ordered) {
      int earlier = indexOfContinued(merged, next);
      if (earlier < 0) {
        merged.add(next);
      } else {
        merged.set(earlier, merged.get(earlier).plus(next));
      }
    }
    merged.sort(Comparator.comparing(Fault::from).reversed());
    return merged;
  }

  private static int indexOfContinued(List<Fault> merged, Fault next) {
    for (int i = merged.size() - 1; i >= 0; i--) {
      if (merged.get(i).continuesIn(next, joinMs(next.kind()))) {
        return i;
      }
    }
    return -1;
  }

  /** A stuck day has at least 20 readings, so they may lie more than 1 h apart. */
  private static long joinMs(FaultKind kind) {
    return kind == FaultKind.STUCK ? STUCK_JOIN_MS : Stretches.JOIN.toMillis();
  }
}
