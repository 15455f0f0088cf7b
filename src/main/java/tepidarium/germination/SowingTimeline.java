package tepidarium.germination;

import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Collection;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.function.ToIntFunction;
import org.jspecify.annotations.Nullable;
import tepidarium.container.ContainerId;
import tepidarium.germination.GerminationData.Fate;

/**
 * What became of the seeds of a sowing: its entries, taken one after the other in order of time. At
 * every instant the seeds sown are ungerminated, germinated, culled or potted.
 */
public final class SowingTimeline {
  /** An entry and how the groups were after it. */
  public record Step(Entry entry, Map<GroupId, GroupState> after) {
    public Step {
      after = Map.copyOf(after);
    }
  }

  private final List<Step> steps = new ArrayList<>();
  private final List<GerminationData.Row> rows = new ArrayList<>();
  private final Map<GroupId, GroupState> groups = new TreeMap<>();
  private @Nullable Entry first;

  private SowingTimeline() {}

  /**
   * Follows the entries.
   *
   * @param entries those that count, in order of time; at least one
   * @throws Contradiction at the first entry that cannot be, naming it
   */
  static SowingTimeline of(List<Entry> entries) {
    SowingTimeline timeline = new SowingTimeline();
    for (Entry entry : entries) {
      try {
        timeline.follow(entry);
      } catch (Refusal e) {
        throw new ContradictedEntry(entry, e.getMessage());
      }
    }
    return timeline;
  }

  /** Why an entry cannot be. */
  private static final class Refusal extends RuntimeException {
    private static final long serialVersionUID = 1L;

    Refusal(String message) {
      super(message);
    }
  }

  private void follow(Entry entry) {
    Act act = entry.act();
    Instant at = entry.at();
    if (act instanceof Act.Sown sown) {
      sow(entry, sown);
    } else if (first == null) {
      throw new Refusal("it lies before the sowing");
    } else if (act instanceof Act.Moved moved) {
      move(moved, entry);
    } else if (act instanceof Act.Checked checked) {
      check(checked, at);
    } else if (act instanceof Act.Survival survival) {
      count(survival);
    }
    steps.add(new Step(entry, groups));
  }

  private void sow(Entry entry, Act.Sown sown) {
    if (first != null) {
      throw new Refusal("the seeds were sown already");
    }
    first = entry;
    for (Act.Part part : sown.parts()) {
      ownGroup(entry, part.group());
      if (groups.put(part.group(), GroupState.begun(part, entry.at())) != null) {
        throw new Refusal("group " + part.group() + " comes twice");
      }
    }
  }

  private static void ownGroup(Entry entry, GroupId group) {
    if (group.sowing() != entry.sowing()) {
      throw new Refusal("group " + group + " cannot be one of sowing " + entry.sowing());
    }
  }

  private GroupState existing(GroupId id) {
    GroupState group = groups.get(id);
    if (group == null) {
      throw new Refusal("there is no group " + id + " at that time");
    }
    return group;
  }

  private GroupState living(GroupId id) {
    GroupState group = existing(id);
    if (group.living() == 0) {
      throw new Refusal(
          "group " + id + " has no seeds left in a container since " + group.endedAt());
    }
    return group;
  }

  private void move(Act.Moved move, Entry entry) {
    Instant at = entry.at();
    GroupState group = living(move.group());
    int ungerminated = taken(move, move.ungerminated(), group.ungerminated());
    int germinated = taken(move, move.germinated(), group.germinated());
    need("moves", ungerminated, "ungerminated", group.ungerminated(), group);
    need("moves", germinated, "germinated", group.germinated(), group);
    if (ungerminated + germinated == 0) {
      throw new Refusal("it moves no seeds");
    }
    GroupId joinTo = move.joinTo();
    GroupId splitInto = move.splitInto();
    if (joinTo != null) {
      GroupState target = living(joinTo);
      if (!target.container().equals(move.to())) {
        throw new Refusal(
            "group " + joinTo + " lies in " + target.container() + ", not in " + move.to());
      }
      groups.put(joinTo, target.joinedBy(group, ungerminated, germinated, at));
      groups.put(group.id(), group.without(ungerminated, germinated, at));
    } else if (splitInto != null) {
      ownGroup(entry, splitInto);
      if (groups.containsKey(splitInto)) {
        throw new Refusal("there is a group " + splitInto + " already");
      }
      groups.put(splitInto, group.part(splitInto, ungerminated, germinated, move.to(), at));
      groups.put(group.id(), group.without(ungerminated, germinated, at));
    } else if (group.container().equals(move.to())) {
      throw new Refusal("the seeds of group " + group.id() + " lie in " + move.to() + " already");
    } else {
      groups.put(group.id(), group.movedTo(move.to(), at));
    }
  }

  private static int taken(Act.Moved move, @Nullable Integer asked, int there) {
    if (move.all()) {
      return there;
    }
    return asked == null ? 0 : asked;
  }

  private static void need(String does, int asked, String which, int there, GroupState group) {
    if (asked > there) {
      throw new Refusal(
          "it %s %d %s seeds, but group %s has %d then"
              .formatted(does, asked, which, group.id(), there));
    }
  }

  private void check(Act.Checked check, Instant at) {
    GroupState group = living(check.group());
    int sound = group.ungerminated();
    int culled = check.culledCount(false);
    need("counts", check.germinated(), "newly germinated", sound, group);
    need("culls", culled, "ungerminated", sound - check.germinated(), group);
    int up = group.germinated() + check.germinated();
    need("culls", check.culledCount(true), "germinated", up, group);
    need("pots on", check.pottedOn(), "germinated", up - check.culledCount(true), group);
    need("measures the roots of", check.rootLengthsCm().size(), "germinated", up, group);
    row(group, at, check.germinated(), Fate.GERMINATED);
    row(group, null, culled, Fate.CULLED);
    groups.put(group.id(), group.checked(check, at));
  }

  private void row(GroupState group, @Nullable Instant to, int count, Fate fate) {
    if (count > 0) {
      Double until = to == null ? null : day(to);
      rows.add(new GerminationData.Row(day(group.soundAt()), until, count, fate, group.id()));
    }
  }

  private void count(Act.Survival survival) {
    GroupState group = existing(survival.group());
    if (survival.alive() > group.alive()) {
      throw new Refusal(
          "it counts %d living seedlings, but at most %d potted from group %s live then"
              .formatted(survival.alive(), group.alive(), group.id()));
    }
    groups.put(group.id(), group.survived(survival.alive()));
  }

  /** The entries that count, in order of time, each with what it led to. */
  public List<Step> steps() {
    return List.copyOf(steps);
  }

  /** The course as it had come by an instant, not before the sowing: later entries left out. */
  public SowingTimeline until(Instant instant) {
    return of(steps.stream().map(Step::entry).filter(e -> !e.at().isAfter(instant)).toList());
  }

  /** The sowing's own entry. */
  public Entry first() {
    if (first == null) {
      throw new IllegalStateException("a course without a sowing");
    }
    return first;
  }

  public Act.Sown sowing() {
    return (Act.Sown) first().act();
  }

  public Instant sownAt() {
    return first().at();
  }

  /** Days since the sowing. */
  public double day(Instant at) {
    return Duration.between(sownAt(), at).toMillis() / Freshness.MS_PER_DAY;
  }

  /** Days from the sowing to each check, in order of time. */
  public List<Double> checkDays() {
    return steps.stream()
        .map(Step::entry)
        .filter(entry -> entry.act() instanceof Act.Checked)
        .map(entry -> day(entry.at()))
        .toList();
  }

  /** Every group there ever was, as it is after the last entry. */
  public Collection<GroupState> groups() {
    return List.copyOf(groups.values());
  }

  public @Nullable GroupState group(GroupId id) {
    return groups.get(id);
  }

  /**
   * The groups as they were at an instant, what happened at it included; empty before the sowing.
   */
  public Map<GroupId, GroupState> at(Instant instant) {
    Map<GroupId, GroupState> found = Map.of();
    for (Step step : steps) {
      if (step.entry().at().isAfter(instant)) {
        break;
      }
      found = step.after();
    }
    return found;
  }

  /** A number added up over all groups, as they are after the last entry. */
  public int sum(ToIntFunction<GroupState> number) {
    return groups.values().stream().mapToInt(number).sum();
  }

  /** Whether seeds of it were ever in the container. */
  boolean passedThrough(ContainerId container) {
    return groups.values().stream()
        .flatMap(group -> group.seedPaths().stream())
        .flatMap(seedPath -> seedPath.legs().stream())
        .anyMatch(leg -> leg.container().equals(container));
  }

  /** What the checks tell of when the seeds germinated. */
  public GerminationData data() {
    List<GerminationData.Row> all = new ArrayList<>(rows);
    for (GroupState group : groups.values()) {
      for (LastSeen seen : group.lastSeen()) {
        all.add(
            new GerminationData.Row(
                day(seen.at()), null, seen.seeds(), Fate.REMAINING, group.id()));
      }
    }
    return new GerminationData(sowing().seeds(), all);
  }
}
