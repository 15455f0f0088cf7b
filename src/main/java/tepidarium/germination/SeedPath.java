package tepidarium.germination;

import java.time.Instant;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import tepidarium.container.ContainerId;

/**
 * One way through containers that seeds of a group took. A group has one, until it is joined with
 * another that came another way.
 *
 * @param legs the containers in order, without a break
 * @param share of the group's ungerminated seeds that came this way when it was last joined, above
 *     0 to 1; of all its seeds where none was ungerminated then
 */
public record SeedPath(List<Leg> legs, double share) {
  /**
   * Time in one container.
   *
   * @param until null while the seeds are still there
   */
  public record Leg(ContainerId container, Instant from, @Nullable Instant until) {
    /** When the seeds left, or an instant that comes before that. */
    public Instant end(Instant latest) {
      return until == null || until.isAfter(latest) ? latest : until;
    }
  }

  public SeedPath {
    legs = List.copyOf(legs);
  }

  static SeedPath begun(ContainerId container, Instant at) {
    return new SeedPath(List.of(new Leg(container, at, null)), 1);
  }

  SeedPath movedTo(ContainerId container, Instant at) {
    Leg last = legs.get(legs.size() - 1);
    if (last.container().equals(container)) {
      return this;
    }
    List<Leg> longer = new ArrayList<>(legs.subList(0, legs.size() - 1));
    if (last.from().isBefore(at)) {
      longer.add(new Leg(last.container(), last.from(), at));
    }
    longer.add(new Leg(container, at, null));
    return new SeedPath(longer, share);
  }

  /**
   * Both groups' ways, weighted by their seeds; the same way from both sides is one.
   *
   * @param seedsA that share the ways of the first group, at least 0
   * @param seedsB of the second group, at least 0; not 0 where the other is
   */
  static List<SeedPath> joined(List<SeedPath> a, int seedsA, List<SeedPath> b, int seedsB) {
    Map<List<Leg>, Double> shares = new LinkedHashMap<>();
    double all = seedsA + seedsB;
    if (seedsA > 0) {
      a.forEach(s -> shares.merge(s.legs(), s.share() * seedsA / all, Double::sum));
    }
    if (seedsB > 0) {
      b.forEach(s -> shares.merge(s.legs(), s.share() * seedsB / all, Double::sum));
    }
    return shares.entrySet().stream().map(e -> new SeedPath(e.getKey(), e.getValue())).toList();
  }
}
