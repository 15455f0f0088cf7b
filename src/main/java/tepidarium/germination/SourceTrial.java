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
 * Compares germination on two heat sources within each seed lot and over all lots. Comparing within
 * lots keeps the quality of a lot or season from counting for a source. Only lots with seeds on
 * both sources are used, and only groups that were neither split nor joined and stayed on one
 * source.
 *
 * @param strata one stratum for each lot on both sources, at least one
 */
public record SourceTrial(String first, String second, List<Stratum> strata) {
  /** The checked seeds of a lot on one source, and the number of their containers. */
  public record Side(Proportion seeds, int containers) {}

  /** One lot with seeds on both sources. */
  public record Stratum(long lot, Side first, Side second) {}

  /** A group that stayed on one source. */
  private record Batch(long lot, String source, Proportion seeds, Set<ContainerId> containers) {}

  public SourceTrial {
    strata = List.copyOf(strata);
  }

  /** The comparison over all lots. */
  public Stratified together() {
    return new Stratified(
        strata.stream()
            .map(s -> new ProportionDifference(s.first().seeds(), s.second().seeds()))
            .toList());
  }

  /**
   * Compares every pair of sources with seeds of a common lot, in order of their names.
   *
   * @param sourceOf heat source of a container; null if it has none
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
