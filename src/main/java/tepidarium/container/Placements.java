package tepidarium.container;

import java.time.Instant;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import org.jspecify.annotations.Nullable;

/** Updates the list of one sensor's placements so that they do not overlap. */
final class Placements {
  private Placements() {}

  /**
   * Returns the placements after a new one: old placements are cut to the time outside the new
   * span.
   *
   * @param until null for "from then on"
   * @param added null for nowhere
   */
  static List<Placement> replaced(
      List<Placement> old, Instant from, @Nullable Instant until, @Nullable Placement added) {
    List<Placement> result = new ArrayList<>();
    for (Placement placement : old) {
      if (placement.from().isBefore(from)) {
        result.add(cut(placement, placement.from(), earlier(placement.until(), from)));
      }
      if (until != null && (placement.until() == null || placement.until().isAfter(until))) {
        Instant start = placement.from().isAfter(until) ? placement.from() : until;
        result.add(cut(placement, start, placement.until()));
      }
    }
    if (added != null) {
      result.add(added);
    }
    result.sort(Comparator.comparing(Placement::from));
    return result;
  }

  private static Placement cut(Placement placement, Instant from, @Nullable Instant until) {
    return new Placement(placement.sensor(), placement.container(), from, until);
  }

  private static Instant earlier(@Nullable Instant end, Instant other) {
    return end == null || end.isAfter(other) ? other : end;
  }
}
