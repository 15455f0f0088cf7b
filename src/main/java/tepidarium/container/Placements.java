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
   * Replaces all placements within a span by a new one. Shortens or splits old placements that
   * overlap the span.
   *
   * @param until end of the span; null for no end
   * @param added the new placement; null if the sensor is in no container
   */
  static List<Placement> replaced(
      List<Placement> old, Instant from, @Nullable Instant until, @Nullable Placement added) {
    List<Placement> result = new ArrayList<>();
    for (Placement placement : old) {
      if (placement.from().isBefore(from)) {
        result.add(shortened(placement, placement.from(), earlier(placement.until(), from)));
      }
      if (until != null && (placement.until() == null || placement.until().isAfter(until))) {
        Instant start = placement.from().isAfter(until) ? placement.from() : until;
        result.add(shortened(placement, start, placement.until()));
      }
    }
    if (added != null) {
      result.add(added);
    }
    result.sort(Comparator.comparing(Placement::from));
    return result;
  }

  private static Placement shortened(Placement placement, Instant from, @Nullable Instant until) {
    return new Placement(placement.sensor(), placement.container(), from, until);
  }

  private static Instant earlier(@Nullable Instant end, Instant other) {
    return end == null || end.isAfter(other) ? other : end;
  }
}
