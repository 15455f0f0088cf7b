package tepidarium.germination;

import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import tepidarium.container.Band;
import tepidarium.container.ContainerId;
import tepidarium.container.ContainerKind;
import tepidarium.container.ContainerSettings;
import tepidarium.container.MemoryContainers;
import tepidarium.container.Register;

/** A grower with three bags, a species and a lot, who writes things down by day. */
final class Bench {
  static final Instant SOWN = Instant.parse("2026-03-01T06:00:00Z");
  static final Instant NOW = SOWN.plus(Duration.ofDays(100));
  static final ContainerId A = new ContainerId("bag-a");
  static final ContainerId B = new ContainerId("bag-b");
  static final ContainerId C = new ContainerId("bag-c");

  final MemoryGermination store = new MemoryGermination();
  final Register register = new Register(new MemoryContainers());
  final SeedJournal journal;
  final Lot lot;

  Bench() {
    for (String name : List.of("Bag A", "Bag B", "Bag C")) {
      register.add(
          new ContainerSettings(name, ContainerKind.BAG, null, 15, null, Band.DEFAULT), SOWN);
    }
    journal = new SeedJournal(store, register);
    journal.species().add("Pawpaw", Map.of(Trait.FIRST_DAYS, new Figure(6, "own results")));
    lot = journal.lots().add(lot(300), NOW);
  }

  static LotDetails lot(int seeds) {
    return new LotDetails(
        "pawpaw",
        null,
        seeds,
        SOWN.minus(Duration.ofDays(2)),
        Origin.PLANT,
        null,
        null,
        null,
        null);
  }

  static Instant day(double day) {
    return SOWN.plus(Freshness.days(day));
  }

  static Note note(double day) {
    return new Note(null, null, day(day), null, null, NOW);
  }

  static Note keyed(UUID key, String request, double day) {
    return new Note(key, request, day(day), null, null, NOW);
  }

  /** A sowing of so many seeds in bag A. */
  GroupId sow(int seeds) {
    Entry entry = journal.sow(lot.id(), null, List.of(new Portion(A, seeds)), note(0));
    return new GroupId(entry.sowing(), 1);
  }

  Entry check(GroupId group, double day, int germinated, int mouldy, int pottedOn) {
    return journal.add(checked(group, germinated, mouldy, pottedOn), note(day));
  }

  static Act.Checked checked(GroupId group, int germinated, int mouldy, int pottedOn) {
    List<Culled> culled =
        mouldy == 0 ? List.of() : List.of(new Culled(mouldy, CullReason.MOULD, false));
    return new Act.Checked(group, germinated, culled, pottedOn, List.of());
  }

  Entry move(
      GroupId group,
      double day,
      ContainerId to,
      @Nullable Integer ungerminated,
      @Nullable Integer germinated,
      @Nullable GroupId joinTo) {
    MoveRequest request = new MoveRequest(to, ungerminated, germinated, joinTo);
    return journal.move(group, request, note(day));
  }

  /** The new group that a part became. */
  static GroupId part(Entry move) {
    GroupId split = ((Act.Moved) move.act()).splitInto();
    if (split == null) {
      throw new AssertionError("no part: " + move);
    }
    return split;
  }

  SowingTimeline timeline(GroupId group) {
    return journal.sowing(group.sowing()).map(Sowing::timeline).orElseThrow();
  }

  GroupState state(GroupId group) {
    GroupState state = timeline(group).group(group);
    if (state == null) {
      throw new AssertionError("no group " + group);
    }
    return state;
  }

  /** Ungerminated, germinated, culled and potted. */
  List<Integer> counts(GroupId group) {
    GroupState state = state(group);
    return List.of(state.ungerminated(), state.germinated(), state.culled(), state.potted());
  }
}
