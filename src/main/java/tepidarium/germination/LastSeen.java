package tepidarium.germination;

import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;

/**
 * Ungerminated seeds of a group that were last seen sound at the same instant. Before the first
 * check this is the instant of the sowing.
 *
 * @param seeds above 0
 */
public record LastSeen(Instant at, int seeds) {
  /** All seeds of a group, last seen at one instant; empty if there are none. */
  static List<LastSeen> all(int seeds, Instant at) {
    return seeds == 0 ? List.of() : List.of(new LastSeen(at, seeds));
  }

  /**
   * A part of the seeds. Seeds in one container cannot be distinguished, so each instant loses a
   * proportional share, rounded to whole seeds.
   *
   * @param taken number of seeds, at most all
   */
  static List<LastSeen> part(List<LastSeen> from, int taken) {
    return split(from, taken, true);
  }

  /** The seeds that remain after a part was taken; see {@link #part}. */
  static List<LastSeen> without(List<LastSeen> from, int taken) {
    return split(from, taken, false);
  }

  private static List<LastSeen> split(List<LastSeen> from, int taken, boolean part) {
    int all = from.stream().mapToInt(LastSeen::seeds).sum();
    List<LastSeen> result = new ArrayList<>();
    int seedsSoFar = 0;
    long takenSoFar = 0;
    for (LastSeen seen : from) {
      seedsSoFar += seen.seeds();
      long takenByNow = Math.round((double) seedsSoFar * taken / all);
      int takenHere = (int) (takenByNow - takenSoFar);
      takenSoFar = takenByNow;
      result.addAll(all(part ? takenHere : seen.seeds() - takenHere, seen.at()));
    }
    return result;
  }

  /** Both lists merged, oldest first. */
  static List<LastSeen> joined(List<LastSeen> a, List<LastSeen> b) {
    Map<Instant, Integer> seeds = new TreeMap<>();
    a.forEach(seen -> seeds.merge(seen.at(), seen.seeds(), Integer::sum));
    b.forEach(seen -> seeds.merge(seen.at(), seen.seeds(), Integer::sum));
    return seeds.entrySet().stream().map(e -> new LastSeen(e.getKey(), e.getValue())).toList();
  }
}
