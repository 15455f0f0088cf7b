package tepidarium.germination;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.IntRange;
import tepidarium.container.ContainerId;

/** Whatever is written down, in whatever order, corrected or taken back: no seed comes or goes. */
class ConservationProperties {
  private static final List<ContainerId> BAGS = List.of(Bench.A, Bench.B, Bench.C);

  /** Does things at random; what is refused must change nothing. */
  private static final class Grower {
    private final Bench bench = new Bench();
    private final Random random;
    private final long sowing;
    private int taken;

    Grower(long seed) {
      this.random = new Random(seed);
      List<Portion> portions = List.of(new Portion(Bench.A, 30), new Portion(Bench.B, 12));
      this.sowing = bench.journal.sow(bench.lot.id(), null, portions, Bench.note(0)).sowing();
    }

    private GroupId anyGroup() {
      List<GroupState> groups = new ArrayList<>(timeline().groups());
      return groups.get(random.nextInt(groups.size())).id();
    }

    private SowingTimeline timeline() {
      return bench.journal.sowing(sowing).map(Sowing::timeline).orElseThrow();
    }

    private Entry anyEntry() {
      List<Entry> entries = bench.journal.entries();
      return entries.get(random.nextInt(entries.size()));
    }

    void act() {
      SowingTimeline before = timeline();
      int entries = bench.journal.entries().size();
      try {
        write();
        taken++;
      } catch (Contradiction | IllegalArgumentException refused) {
        assertEquals(before.groups(), timeline().groups());
        assertEquals(entries, bench.journal.entries().size());
      }
    }

    private void write() {
      Note note = Bench.note(random.nextInt(50));
      switch (random.nextInt(7)) {
        case 0, 1, 2 -> bench.journal.add(check(anyGroup()), note);
        case 3 -> bench.journal.move(anyGroup(), move(), note);
        case 4 -> bench.journal.add(new Act.Survival(anyGroup(), random.nextInt(4)), note);
        case 5 -> correct(anyEntry(), note);
        default -> {
          Entry old = anyEntry();
          if (!(old.act() instanceof Act.Sown)) {
            bench.journal.withdraw(old.id(), "by chance", note);
          }
        }
      }
    }

    private Act.Checked check(GroupId group) {
      List<Culled> culled = new ArrayList<>();
      if (random.nextInt(3) == 0) {
        culled.add(new Culled(1 + random.nextInt(2), CullReason.MOULD, random.nextBoolean()));
      }
      return new Act.Checked(group, random.nextInt(4), culled, random.nextInt(2), List.of());
    }

    private MoveRequest move() {
      ContainerId to = BAGS.get(random.nextInt(BAGS.size()));
      GroupId join = random.nextInt(3) == 0 ? anyGroup() : null;
      return random.nextBoolean()
          ? new MoveRequest(to, null, null, join)
          : new MoveRequest(to, random.nextInt(6), random.nextInt(3), join);
    }

    private void correct(Entry old, Note note) {
      GroupId group = old.act().group();
      if (old.act() instanceof Act.Moved) {
        bench.journal.correctMove(old.id(), move(), "by chance", note);
      } else if (old.act() instanceof Act.Checked && group != null) {
        bench.journal.correct(old.id(), e -> check(group), "by chance", note);
      }
    }
  }

  @Property(tries = 300)
  void seedsAreConservedAtEveryInstant(
      @ForAll long seed, @ForAll @IntRange(min = 5, max = 60) int acts) {
    Grower grower = new Grower(seed);
    for (int i = 0; i < acts; i++) {
      grower.act();
    }
    SowingTimeline timeline = grower.timeline();
    for (SowingTimeline.Step step : timeline.steps()) {
      int seeds = 0;
      for (GroupState group : step.after().values()) {
        seeds += group.seeds();
        assertTrue(
            Math.min(group.ungerminated(), group.germinated()) >= 0
                && Math.min(group.culledUngerminated(), group.culledGerminated()) >= 0
                && group.alive() >= 0
                && group.alive() <= group.potted(),
            group.toString());
        assertEquals(
            group.ungerminated(), group.lastSeen().stream().mapToInt(LastSeen::seeds).sum());
        double share = group.seedPaths().stream().mapToDouble(SeedPath::share).sum();
        assertEquals(1, share, 1e-9);
      }
      assertEquals(42, seeds, step.entry().toString());
    }
    GerminationData data = timeline.data();
    assertEquals(42, data.rows().stream().mapToInt(GerminationData.Row::count).sum());
    assertEquals(
        timeline.sum(GroupState::everGerminated), data.count(GerminationData.Fate.GERMINATED));
    data.rows().forEach(row -> assertTrue(row.to() == null || row.to() >= row.from()));
    SeedJournal again = new SeedJournal(grower.bench.store, grower.bench.register);
    assertEquals(
        timeline.groups(),
        again.sowing(grower.sowing).map(Sowing::timeline).orElseThrow().groups());
  }

  @Property(tries = 20)
  void mostRandomEntriesAreAccepted(@ForAll long seed) {
    Grower grower = new Grower(seed);
    for (int i = 0; i < 60; i++) {
      grower.act();
    }
    assertTrue(grower.taken > 5, "only " + grower.taken + " of 60 were possible");
  }
}
