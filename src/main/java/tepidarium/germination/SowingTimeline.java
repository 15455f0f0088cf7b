package tepidarium.germination;

import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Collection;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.function.ToIntFunction;
import org.jspecify.annotations.Nullable;
import tepidarium.container.ContainerId;
import tepidarium.germination.GerminationData.Fate;
import tepidarium.reading.BrokenRule;
import tepidarium.reading.InputRule;

/**
 * The timeline of a sowing: applies its journal entries in chronological order and keeps the state
 * of each seed group after each entry. Every seed is ungerminated, germinated, culled or potted.
 */
public final class SowingTimeline {
  /** An entry and the states of all groups after it. */
  public record Step(Entry entry, Map<GroupId, GroupState> after) {
    public Step {
      after = Map.copyOf(after);
    }
  }

  private final List<Step> steps = new ArrayList<>();
  private final List<GerminationData.Row> rows = new ArrayList<>();
  private final Map<GroupId, GroupState> groups = new TreeMap<>();
  private final Map<GroupId, String> groupNames = new HashMap<>();
  private @Nullable Entry first;
  private @Nullable String name;

  private SowingTimeline() {}

  /**
   * Applies the entries.
   *
   * @param entries valid entries in chronological order, at least one
   * @throws ContradictedEntry at the first impossible entry
   */
  static SowingTimeline of(List<Entry> entries) {
    SowingTimeline timeline = new SowingTimeline();
    for (Entry entry : entries) {
      try {
        timeline.apply(entry);
      } catch (Refusal e) {
        throw new ContradictedEntry(entry, e.getMessage(), e.broken);
      }
    }
    return timeline;
  }

  /** Thrown when an entry is impossible at its time. The message is the reason. */
  private static final class Refusal extends RuntimeException {
    private static final long serialVersionUID = 1L;
    private final transient @Nullable BrokenRule broken;

    Refusal(String message) {
      this(message, null);
    }

    Refusal(String message, @Nullable BrokenRule broken) {
      super(message);
      this.broken = broken;
    }
  }

  private void apply(Entry entry) {
    Act act = entry.act();
    Instant at = entry.at();
    if (act instanceof Act.Sown sown) {
      sow(entry, sown);
    } else if (first == null) {
      throw new Refusal("it is earlier than the sowing", InputRule.BEFORE_SOWING.with());
    } else if (act instanceof Act.Moved moved) {
      move(moved, entry);
    } else if (act instanceof Act.Checked checked) {
      check(checked, at);
    } else if (act instanceof Act.Survival survival) {
      count(survival);
    } else if (act instanceof Act.Named named) {
      name(named);
    }
    steps.add(new Step(entry, groups));
  }

  private void sow(Entry entry, Act.Sown sown) {
    if (first != null) {
      throw new Refusal("the seeds have already been sown");
    }
    first = entry;
    name = sown.name();
    for (Act.Part part : sown.parts()) {
      ownGroup(entry, part.group());
      if (groups.put(part.group(), GroupState.sown(part, entry.at())) != null) {
        throw new Refusal("group " + part.group() + " appears twice");
      }
    }
  }

  private static void ownGroup(Entry entry, GroupId group) {
    if (group.sowing() != entry.sowing()) {
      throw new Refusal("group " + group + " does not belong to sowing " + entry.sowing());
    }
  }

  private GroupState existing(GroupId id) {
    GroupState group = groups.get(id);
    if (group == null) {
      throw new Refusal(
          "there is no group " + id + " at that time", InputRule.NO_GROUP.with(id.toString()));
    }
    return group;
  }

  private GroupState living(GroupId id) {
    GroupState group = existing(id);
    if (group.living() == 0) {
      throw new Refusal(
          "group " + id + " has no seeds left in a container since " + group.endedAt(),
          InputRule.GROUP_EMPTY.with(id.toString(), group.endedAt()));
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
      throw new Refusal("it moves no seeds", InputRule.NO_SEEDS.with());
    }
    GroupId joinTo = move.joinTo();
    GroupId splitInto = move.splitInto();
    if (joinTo != null) {
      GroupState target = living(joinTo);
      if (!target.container().equals(move.to())) {
        throw new Refusal(
            "group " + joinTo + " lies in " + target.container() + ", not in " + move.to(),
            InputRule.GROUP_LIES_IN.with(joinTo.toString(), target.container().value()));
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
      throw new Refusal(
          "the seeds of group " + group.id() + " lie in " + move.to() + " already",
          InputRule.ALREADY_THERE.with(group.id().toString(), move.to().value()));
    } else {
      groups.put(group.id(), group.movedTo(move.to(), at));
    }
  }

  private static int taken(Act.Moved move, @Nullable Integer requested, int available) {
    if (move.all()) {
      return available;
    }
    return requested == null ? 0 : requested;
  }

  private static void need(
      String action, int requested, String which, int available, GroupState group) {
    if (requested > available) {
      String stage = which.equals("germinated") ? which : "ungerminated";
      throw new Refusal(
          "it %s %d %s seeds, but group %s has %d then"
              .formatted(action, requested, which, group.id(), available),
          InputRule.TOO_FEW_SEEDS.with(group.id().toString(), stage, requested, available));
    }
  }

  private void check(Act.Checked check, Instant at) {
    GroupState group = living(check.group());
    int sound = group.ungerminated();
    int culled = check.culledCount(false);
    need("counts", check.germinated(), "newly germinated", sound, group);
    need("culls", culled, "ungerminated", sound - check.germinated(), group);
    int allGerminated = group.germinated() + check.germinated();
    need("culls", check.culledCount(true), "germinated", allGerminated, group);
    need("pots on", check.pottedOn(), "germinated", allGerminated - check.culledCount(true), group);
    need("measures the roots of", check.rootLengthsCm().size(), "germinated", allGerminated, group);
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
              .formatted(survival.alive(), group.alive(), group.id()),
          InputRule.TOO_FEW_SEEDS.with(
              group.id().toString(), "alive", survival.alive(), group.alive()));
    }
    groups.put(group.id(), group.survived(survival.alive()));
  }

  private void name(Act.Named named) {
    GroupId group = named.group();
    if (group == null) {
      name = named.name();
    } else if (named.name() == null) {
      groupNames.remove(existing(group).id());
    } else {
      groupNames.put(existing(group).id(), named.name());
    }
  }

  /** The newest name of the sowing; null if it has none. */
  public @Nullable String name() {
    return name;
  }

  /** The newest name of a group; null if it has none. */
  public @Nullable String name(GroupId group) {
    return groupNames.get(group);
  }

  /** The valid entries in chronological order, each with the states after it. */
  public List<Step> steps() {
    return List.copyOf(steps);
  }

  /** The timeline up to an instant at or after the sowing, without later entries. */
  public SowingTimeline until(Instant instant) {
    return of(steps.stream().map(Step::entry).filter(e -> !e.at().isAfter(instant)).toList());
  }

  /** The entry of the sowing. */
  public Entry first() {
    if (first == null) {
      throw new IllegalStateException("the timeline has no sowing");
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

  /** The states of all groups after the last entry. */
  public Collection<GroupState> groups() {
    return List.copyOf(groups.values());
  }

  public @Nullable GroupState group(GroupId id) {
    return groups.get(id);
  }

  /**
   * The states of the groups at an instant, including entries at that instant; empty before the
   * sowing.
   */
  public Map<GroupId, GroupState> at(Instant instant) {
    Map<GroupId, GroupState> states = Map.of();
    for (Step step : steps) {
      if (step.entry().at().isAfter(instant)) {
        break;
      }
      states = step.after();
    }
    return states;
  }

  /** The sum of a figure over all groups after the last entry. */
  public int sum(ToIntFunction<GroupState> number) {
    return groups.values().stream().mapToInt(number).sum();
  }

  /** Whether seeds of this sowing were ever in the container. */
  boolean passedThrough(ContainerId container) {
    return groups.values().stream()
        .flatMap(group -> group.seedPaths().stream())
        .flatMap(seedPath -> seedPath.legs().stream())
        .anyMatch(leg -> leg.container().equals(container));
  }

  /** The germination times of all seeds as interval-censored rows. */
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
