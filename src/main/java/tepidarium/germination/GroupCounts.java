package tepidarium.germination;

import java.util.HashSet;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import tepidarium.germination.GerminationData.Fate;
import tepidarium.stats.Proportion;

/** Counts germinated seeds by group, for groups that can be compared with each other. */
public final class GroupCounts {
  private GroupCounts() {}

  /**
   * The germinated fraction of the checked seeds, for each group that was neither split nor joined.
   * Mixed groups are left out: after a split, the germinated seeds of one part do not show its
   * germination probability. Groups that nobody has checked are left out too.
   */
  public static Map<GroupId, Proportion> of(SowingTimeline timeline) {
    Set<GroupId> mixed = mixed(timeline);
    Map<GroupId, Integer> germinated = new TreeMap<>();
    Map<GroupId, Integer> lookedAt = new TreeMap<>();
    for (GerminationData.Row row : timeline.data().rows()) {
      boolean seen = row.fate() != Fate.REMAINING || row.from() > 0;
      if (seen && !mixed.contains(row.group())) {
        lookedAt.merge(row.group(), row.count(), Integer::sum);
        int hits = row.fate() == Fate.GERMINATED ? row.count() : 0;
        germinated.merge(row.group(), hits, Integer::sum);
      }
    }
    Map<GroupId, Proportion> counts = new TreeMap<>();
    lookedAt.forEach(
        (group, seeds) ->
            counts.put(group, new Proportion(germinated.getOrDefault(group, 0), seeds)));
    return counts;
  }

  private static Set<GroupId> mixed(SowingTimeline timeline) {
    Set<GroupId> mixed = new HashSet<>();
    for (SowingTimeline.Step step : timeline.steps()) {
      if (step.entry().act() instanceof Act.Moved moved) {
        GroupId joinTo = moved.joinTo();
        GroupId splitInto = moved.splitInto();
        if ((joinTo != null || splitInto != null) && movesUngerminated(moved)) {
          mixed.add(moved.group());
          mixed.add(joinTo != null ? joinTo : moved.group());
          mixed.add(splitInto != null ? splitInto : moved.group());
        }
      }
    }
    return mixed;
  }

  /**
   * A move of germinated seeds alone does not matter: they count in the group in which they
   * germinated.
   */
  private static boolean movesUngerminated(Act.Moved moved) {
    Integer ungerminated = moved.ungerminated();
    return moved.all() || (ungerminated != null && ungerminated > 0);
  }
}
