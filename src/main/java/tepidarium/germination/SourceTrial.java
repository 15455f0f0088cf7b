package tepidarium.germination;

import java.util.ArrayList;
import java.util.Collection;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import java.util.function.Function;
import org.jspecify.annotations.Nullable;
import tepidarium.container.ContainerId;
import tepidarium.stats.Proportion;
import tepidarium.stats.ProportionDifference;
import tepidarium.stats.Stratified;

/**
 * Compares germination on two heat sources within each seed lot, and over all lots together. A lot
 * is gathered in one season, so that neither a good season nor a good lot counts for the source
 * that had more of its seeds. Only lots count that lay on both sources, and only groups that stayed
 * together on one source all the time.
 *
 * @param strata one for each lot that lay on both, at least one
 */
public record SourceTrial(String first, String second, List<Stratum> strata) {
  /** Seeds of a lot on one source, and in how many containers they lay. */
  public record Side(Proportion seeds, int containers) {}

  /** One lot on both sources. */
  public record Stratum(long lot, Side first, Side second) {}

  /** A group on one source. */
  private record Batch(long lot, String source, Proportion seeds, Set<ContainerId> containers) {}

  public SourceTrial {
    strata = List.copyOf(strata);
  }

  /** All lots together. */
  public Stratified together() {
    return new Stratified(
        strata.stream()
            .map(s -> new ProportionDifference(s.first().seeds(), s.second().seeds()))
            .toList());
  }

  /**
   * Every two sources, in order of their names, that had seeds of one lot.
   *
   * @param sourceOf what warms a container; null for nothing
   */
  public static List<SourceTrial> all(
      Collection<SowingTimeline> sowings, Function<ContainerId, @Nullable String> sourceOf) {
    List<Batch> batches = sowings.stream().flatMap(c -> batches(c, sourceOf).stream()).toList();
    List<String> sources = List.copyOf(new TreeSet<>(batches.stream().map(Batch::source).toList()));
    List<SourceTrial> trials = new ArrayList<>();
    for (int i = 0; i < sources.size(); i++) {
      for (int j = i + 1; j < sources.size(); j++) {
        List<Stratum> strata = strata(batches, sources.get(i), sources.get(j));
        if (!strata.isEmpty()) {
          trials.add(new SourceTrial(sources.get(i), sources.get(j), strata));
        }
      }
    }
    return trials;
  }

  private static List<Batch> batches(
      SowingTimeline timeline, Function<ContainerId, @Nullable String> sourceOf) {
    List<Batch> batches = new ArrayList<>();
    for (Map.Entry<GroupId, Proportion> count : GroupCounts.of(timeline).entrySet()) {
      GroupState group = timeline.group(count.getKey());
      Set<ContainerId> containers = new HashSet<>();
      if (group != null) {
        group.seedPaths().forEach(s -> s.legs().forEach(leg -> containers.add(leg.container())));
      }
      Set<@Nullable String> sources = new HashSet<>();
      containers.forEach(container -> sources.add(sourceOf.apply(container)));
      String source = sources.size() == 1 ? sources.iterator().next() : null;
      if (source != null) {
        batches.add(new Batch(timeline.sowing().lot(), source, count.getValue(), containers));
      }
    }
    return batches;
  }

  private static List<Stratum> strata(List<Batch> batches, String first, String second) {
    List<Stratum> strata = new ArrayList<>();
    for (long lot : new TreeSet<>(batches.stream().map(Batch::lot).toList())) {
      Side a = side(batches, lot, first);
      Side b = side(batches, lot, second);
      if (a != null && b != null) {
        strata.add(new Stratum(lot, a, b));
      }
    }
    return strata;
  }

  private static @Nullable Side side(List<Batch> batches, long lot, String source) {
    int hits = 0;
    int seeds = 0;
    Set<ContainerId> containers = new HashSet<>();
    for (Batch batch : batches) {
      if (batch.lot() == lot && batch.source().equals(source)) {
        hits += batch.seeds().hits();
        seeds += batch.seeds().trials();
        containers.addAll(batch.containers());
      }
    }
    return seeds == 0 ? null : new Side(new Proportion(hits, seeds), containers.size());
  }
}
