package tepidarium.germination;

import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;

/**
 * Ungerminated seeds of a group that were last seen sound at one instant, which is that of the
 * sowing before their first check.
 *
 * @param seeds above 0
 */
public record LastSeen(Instant at, int seeds) {
  /** All seeds of a group, seen at one instant; empty for none. */
  static List<LastSeen> all(int seeds, Instant at) {
    return seeds == 0 ? List.of() : List.of(new LastSeen(at, seeds));
  }

  /**
   * So many of them. Nobody can tell seeds of one container apart, so each time loses its share,
   * rounded to whole seeds.
   *
   * @param taken at most as many as there are
   */
  static List<LastSeen> part(List<LastSeen> from, int taken) {
    return split(from, taken, true);
  }

  /** The others. */
  static List<LastSeen> without(List<LastSeen> from, int taken) {
    return split(from, taken, false);
  }

  private static List<LastSeen> split(List<LastSeen> from, int taken, boolean part) {
    int all = from.stream().mapToInt(LastSeen::seeds).sum();
    List<LastSeen> found = new ArrayList<>();
    int seedsSoFar = 0;
    long takenSoFar = 0;
    for (LastSeen one : from) {
      seedsSoFar += one.seeds();
      long takenByNow = Math.round((double) seedsSoFar * taken / all);
      int mine = (int) (takenByNow - takenSoFar);
      takenSoFar = takenByNow;
      found.addAll(all(part ? mine : one.seeds() - mine, one.at()));
    }
    return found;
  }

  /** Both together, the earliest first. */
  static List<LastSeen> joined(List<LastSeen> a, List<LastSeen> b) {
    Map<Instant, Integer> seeds = new TreeMap<>();
    a.forEach(one -> seeds.merge(one.at(), one.seeds(), Integer::sum));
    b.forEach(one -> seeds.merge(one.at(), one.seeds(), Integer::sum));
    return seeds.entrySet().stream().map(e -> new LastSeen(e.getKey(), e.getValue())).toList();
  }
}
