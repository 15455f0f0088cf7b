package tepidarium.germination;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static tepidarium.germination.Bench.A;
import static tepidarium.germination.Bench.B;
import static tepidarium.germination.Bench.C;
import static tepidarium.germination.Bench.NOW;
import static tepidarium.germination.Bench.note;

import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import tepidarium.container.ContainerId;
import tepidarium.stats.Proportion;

class SourceTrialTest {
  private static final Map<ContainerId, String> SOURCES = Map.of(A, "mat", B, "closet", C, "mat");

  private final Bench bench = new Bench();

  private static @Nullable String source(ContainerId container) {
    return SOURCES.get(container);
  }

  private List<SourceTrial> trials() {
    return SourceTrial.all(
        bench.journal.sowings().stream().map(Sowing::timeline).toList(), SourceTrialTest::source);
  }

  private GroupId sow(long lot, ContainerId container, int seeds) {
    Entry entry = bench.journal.sow(lot, null, List.of(new Portion(container, seeds)), note(0));
    return new GroupId(entry.sowing(), 1);
  }

  private void sow(long lot, ContainerId container, int seeds, int germinated) {
    bench.check(sow(lot, container, seeds), 30, germinated, 0, 0);
  }

  @Test
  void lotsAreComparedWithinThemselvesAndTogether() {
    long last = bench.lot.id();
    long next = bench.journal.lots().add(Bench.lot(300), NOW).id();
    long onlyOnTheMat = bench.journal.lots().add(Bench.lot(300), NOW).id();
    sow(last, A, 12, 6);
    sow(last, C, 8, 2);
    sow(last, B, 80, 24);
    sow(next, A, 80, 56);
    sow(next, B, 20, 12);
    sow(onlyOnTheMat, A, 50, 1);
    List<SourceTrial> trials = trials();
    assertEquals(1, trials.size());
    SourceTrial trial = trials.get(0);
    assertEquals("closet", trial.first());
    assertEquals("mat", trial.second());
    assertEquals(
        List.of(last, next), trial.strata().stream().map(SourceTrial.Stratum::lot).toList());
    assertEquals(new SourceTrial.Side(new Proportion(8, 20), 2), trial.strata().get(0).second());
    // 8 of 20 against 24 of 80, and 56 of 80 against 12 of 20: ten points each.
    assertEquals(-0.1, trial.together().difference(), 1e-12);
  }

  @Test
  void seedsThatChangedTheSourceOrWereNotLookedAtDoNotCount() {
    long lot = bench.lot.id();
    sow(lot, A, 20, 10);
    GroupId moved = sow(lot, B, 20);
    bench.move(moved, 3, A, null, null, null);
    bench.check(moved, 30, 20, 0, 0);
    sow(lot, B, 20);
    assertTrue(trials().isEmpty());
    sow(lot, B, 20, 5);
    assertEquals(new Proportion(5, 20), trials().get(0).strata().get(0).first().seeds());
    assertEquals(new Proportion(10, 20), trials().get(0).strata().get(0).second().seeds());
  }

  /** Ten germinated, then half of the rest went elsewhere: 10 of 15 and 0 of 5 would be wrong. */
  @Test
  void groupsThatWereSplitAreNotCounted() {
    GroupId group = bench.sow(20);
    bench.check(group, 10, 10, 0, 0);
    bench.move(group, 11, B, 0, 10, null);
    assertEquals(Map.of(group, new Proportion(10, 20)), GroupCounts.of(bench.timeline(group)));
    bench.move(group, 12, C, 5, 0, null);
    assertTrue(GroupCounts.of(bench.timeline(group)).isEmpty());
  }
}
