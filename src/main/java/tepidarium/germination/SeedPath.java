package tepidarium.germination;

import java.time.Instant;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import tepidarium.container.ContainerId;

/**
 * A sequence of containers in which seeds of a group were kept. A group has one path until it is
 * joined with a group that has another path.
 *
 * @param legs stays in containers, in order, without gaps
 * @param share share of the group's ungerminated seeds that took this path, at the time of the last
 *     join, above 0 to 1; share of all its seeds if none was ungerminated then
 */
public record SeedPath(List<Leg> legs, double share) {
  /**
   * A stay in one container.
   *
   * @param until null while the seeds are in it
   */
  public record Leg(ContainerId container, Instant from, @Nullable Instant until) {
    /** The end of the stay, at most {@code latest}. */
    public Instant end(Instant latest) {
      return until == null || until.isAfter(latest) ? latest : until;
    }
  }

  public SeedPath {
    legs = List.copyOf(legs);
  }

  static SeedPath startingIn(ContainerId container, Instant at) {
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
   * The paths of two joined groups. Shares are weighted by the number of seeds. Equal paths are
   * merged.
   *
   * @param seedsA seeds from the first group, at least 0
   * @param seedsB seeds from the second group, at least 0; above 0 if {@code seedsA} is 0
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
