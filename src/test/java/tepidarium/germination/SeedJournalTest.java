package tepidarium.germination;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static tepidarium.germination.Bench.A;
import static tepidarium.germination.Bench.B;
import static tepidarium.germination.Bench.C;
import static tepidarium.germination.Bench.NOW;
import static tepidarium.germination.Bench.checked;
import static tepidarium.germination.Bench.day;
import static tepidarium.germination.Bench.keyed;
import static tepidarium.germination.Bench.note;
import static tepidarium.germination.Bench.part;

import java.util.List;
import java.util.NoSuchElementException;
import java.util.UUID;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.function.Executable;
import tepidarium.germination.GerminationData.Fate;
import tepidarium.germination.SeedPath.Leg;

class SeedJournalTest {
  private final Bench bench = new Bench();

  private static void refused(String word, Executable act) {
    String message = String.valueOf(assertThrows(Contradiction.class, act).getMessage());
    assertTrue(message.contains(word), message);
  }

  @Test
  void aCheckCountsGerminatedCulledAndPotted() {
    GroupId group = bench.sow(20);
    bench.check(group, 7, 5, 2, 0);
    bench.check(group, 14, 3, 0, 4);

    assertEquals(List.of(10, 4, 2, 4), bench.counts(group));
    assertEquals(8, bench.state(group).everGerminated());
  }

  @Test
  void aGerminatedSeedThatDiesStillCountsAsGerminated() {
    GroupId group = bench.sow(10);
    Culled dead = new Culled(1, CullReason.DEAD, true);
    bench.check(group, 7, 3, 0, 0);
    bench.journal.add(new Act.Checked(group, 0, List.of(dead), 0, List.of()), note(8));

    assertEquals(List.of(7, 2, 1, 0), bench.counts(group));
    assertEquals(3, bench.timeline(group).data().count(Fate.GERMINATED));
    assertEquals(0, bench.timeline(group).data().count(Fate.CULLED));
  }

  @Test
  void anEntryThatBreaksTheCountIsRefusedAndChangesNothing() {
    GroupId group = bench.sow(5);
    refused("counts 6 newly germinated seeds", () -> bench.check(group, 7, 6, 0, 0));
    refused("culls 3 ungerminated seeds", () -> bench.check(group, 7, 3, 3, 0));
    refused("pots on 4 germinated seeds", () -> bench.check(group, 7, 3, 0, 4));
    refused("moves 6 ungerminated seeds", () -> bench.move(group, 7, B, 6, 0, null));
    refused("moves no seeds", () -> bench.move(group, 7, B, 0, 0, null));
    refused("lie in bag-a already", () -> bench.move(group, 7, A, null, null, null));
    refused("earlier than the sowing", () -> bench.check(group, -1, 0, 0, 0));
    assertEquals(List.of(5, 0, 0, 0), bench.counts(group));
    assertEquals(1, bench.store.entries().size());
  }

  @Test
  void anEntryMustNotLieInTheFutureAndNeedsAContainerThatIsThere() {
    GroupId group = bench.sow(5);
    assertThrows(IllegalArgumentException.class, () -> bench.check(group, 101, 0, 0, 0));
    var attic = new tepidarium.container.ContainerId("attic");
    assertThrows(
        IllegalArgumentException.class, () -> bench.move(group, 7, attic, null, null, null));
    GroupId nobody = new GroupId(9, 1);
    assertThrows(NoSuchElementException.class, () -> bench.check(nobody, 7, 0, 0, 0));
  }

  @Test
  void aLateEntryOfAnOldCheckMustFitWhatCameAfter() {
    GroupId group = bench.sow(5);
    bench.check(group, 14, 4, 0, 0);
    refused("the check of group 1-1 at", () -> bench.check(group, 7, 2, 0, 0));
    bench.check(group, 7, 1, 0, 0);

    assertEquals(List.of(0, 5, 0, 0), bench.counts(group));
    var rows = bench.timeline(group).data().rows();
    assertEquals(new GerminationData.Row(0, 7.0, 1, Fate.GERMINATED, group), rows.get(0));
    assertEquals(new GerminationData.Row(7, 14.0, 4, Fate.GERMINATED, group), rows.get(1));
    assertEquals(4, bench.timeline(group).at(day(10)).values().iterator().next().ungerminated());
  }

  @Test
  void aPartOfAGroupBecomesAGroupWithThePathOfBoth() {
    GroupId group = bench.sow(20);
    bench.check(group, 7, 6, 0, 0);
    GroupId sprouted = part(bench.move(group, 7, B, 0, 6, null));
    bench.check(sprouted, 10, 0, 0, 6);

    assertEquals(List.of(14, 0, 0, 0), bench.counts(group));
    assertEquals(List.of(0, 0, 0, 6), bench.counts(sprouted));
    assertEquals(
        List.of(new Leg(A, day(0), day(7)), new Leg(B, day(7), null)),
        bench.state(sprouted).seedPaths().get(0).legs());
    assertEquals(day(10), bench.state(sprouted).endedAt());
  }

  @Test
  void aMoveOfAllThatIsThereKeepsTheGroup() {
    GroupId group = bench.sow(20);
    Act.Moved moved = (Act.Moved) bench.move(group, 3, B, 20, 0, null).act();

    assertTrue(moved.all());
    assertEquals(B, bench.state(group).container());
  }

  @Test
  void theSeedsLeftInTwoBoxesAreJoined() {
    Entry sown =
        bench.journal.sow(
            bench.lot.id(), "two", List.of(new Portion(A, 30), new Portion(B, 10)), note(0));
    GroupId first = new GroupId(sown.sowing(), 1);
    GroupId second = new GroupId(sown.sowing(), 2);
    refused("lies in bag-b, not in bag-c", () -> bench.move(first, 9, C, null, null, second));
    bench.check(first, 7, 0, 0, 0);
    bench.check(second, 9, 0, 0, 0);
    bench.move(first, 9, B, null, null, second);
    bench.check(second, 14, 8, 0, 0);

    assertEquals(List.of(0, 0, 0, 0), bench.counts(first));
    assertEquals(List.of(32, 8, 0, 0), bench.counts(second));
    List<SeedPath> seedPaths = bench.state(second).seedPaths();
    assertEquals(List.of(0.25, 0.75), seedPaths.stream().map(SeedPath::share).toList());
    assertEquals(
        new GerminationData.Row(7, 14.0, 8, Fate.GERMINATED, second),
        bench.timeline(second).data().rows().get(0));
    refused("no seeds left", () -> bench.check(first, 15, 0, 0, 0));
  }

  /** Ten sound seeds seen on day 40 join 50 that nobody looked at: each keeps its own time. */
  @Test
  void joinedSeedsKeepWhenTheyWereLastSeen() {
    Entry sown =
        bench.journal.sow(
            bench.lot.id(), "two", List.of(new Portion(A, 50), new Portion(B, 50)), note(0));
    GroupId first = new GroupId(sown.sowing(), 1);
    GroupId second = new GroupId(sown.sowing(), 2);
    bench.check(first, 40, 40, 0, 0);
    bench.move(first, 41, B, null, null, second);
    GerminationData data = bench.timeline(second).data();
    assertEquals(50, data.notLookedAt());
    assertEquals(50, data.lookedAt());
    assertEquals(40.0, data.remainingWatchedDays());
    bench.check(second, 45, 0, 0, 0);
    assertEquals(0, bench.timeline(second).data().notLookedAt());
  }

  @Test
  void seedlingsThatLiveAreAtMostThosePotted() {
    GroupId group = bench.sow(5);
    refused("at most 0", () -> bench.journal.add(new Act.Survival(group, 1), note(7)));
    bench.check(group, 7, 4, 0, 4);
    bench.journal.add(new Act.Survival(group, 3), note(20));
    refused("at most 3", () -> bench.journal.add(new Act.Survival(group, 4), note(30)));
    assertEquals(3, bench.state(group).alive());
  }

  @Test
  void aCorrectionCountsInPlaceOfTheOldEntryAndBothAreKept() {
    GroupId group = bench.sow(20);
    Entry wrong = bench.check(group, 7, 5, 0, 0);
    bench.check(group, 14, 2, 0, 3);
    Note today = new Note(null, null, null, "Ida", null, NOW);
    Entry right =
        bench.journal.correct(wrong.id(), old -> checked(group, 4, 1, 0), "miscounted", today);

    assertEquals(day(7), right.at());
    assertEquals(List.of(13, 3, 1, 3), bench.counts(group));
    Sowing sowing = bench.journal.sowing(group.sowing()).orElseThrow();
    assertEquals(4, sowing.entries().size());
    assertEquals(right, sowing.replacement(wrong.id()));
    refused("no longer valid", () -> bench.journal.withdraw(wrong.id(), "again", note(7)));
  }

  @Test
  void aCorrectionThatMakesLaterEntriesImpossibleIsRefusedWithTheReason() {
    GroupId group = bench.sow(20);
    Entry check = bench.check(group, 7, 5, 0, 0);
    bench.check(group, 14, 0, 0, 5);
    refused(
        "pots on 5 germinated seeds",
        () -> bench.journal.correct(check.id(), e -> checked(group, 4, 0, 0), "no", note(7)));
    refused("the check of group", () -> bench.journal.withdraw(check.id(), "no", note(7)));
    assertEquals(List.of(15, 0, 0, 5), bench.counts(group));
  }

  @Test
  void aWithdrawnEntryIsUndone() {
    GroupId group = bench.sow(20);
    Entry check = bench.check(group, 7, 5, 0, 0);
    bench.journal.withdraw(check.id(), "another bag", note(7));
    assertEquals(List.of(20, 0, 0, 0), bench.counts(group));

    Entry sowing = bench.timeline(group).first();
    bench.journal.withdraw(sowing.id(), "never sown", note(8));
    assertNull(bench.journal.sowing(group.sowing()).orElseThrow().timeline());
    assertEquals(0, bench.journal.lots().sown(bench.lot.id()));
    assertNotEquals(group.sowing(), bench.sow(20).sowing());
  }

  @Test
  void aCorrectedMoveKeepsTheGroupThatItMade() {
    GroupId group = bench.sow(20);
    Entry move = bench.move(group, 7, B, 5, 0, null);
    GroupId split = part(move);
    bench.check(split, 10, 3, 0, 0);
    bench.journal.correctMove(move.id(), new MoveRequest(C, 6, 0, null), "six, in C", note(7));

    assertEquals(List.of(3, 3, 0, 0), bench.counts(split));
    assertEquals(C, bench.state(split).container());
    refused("moves 6 ungerminated", () -> bench.check(group, 6.5, 0, 15, 0));
  }

  @Test
  void aCorrectedSowingKeepsItsGroupsInOrder() {
    GroupId group = bench.sow(20);
    Entry first = bench.timeline(group).first();
    bench.check(group, 7, 5, 0, 0);
    Portion same = new Portion(A, 18);
    bench.journal.correctSowing(
        first.id(), bench.lot.id(), null, List.of(same, new Portion(B, 4)), "22", note(0));

    assertEquals(List.of(13, 5, 0, 0), bench.counts(group));
    assertEquals(List.of(4, 0, 0, 0), bench.counts(new GroupId(group.sowing(), 2)));
  }

  @Test
  void aRepeatedRequestIsStoredOnce() {
    GroupId group = bench.sow(20);
    UUID key = UUID.randomUUID();
    Entry first = bench.journal.add(checked(group, 5, 0, 0), keyed(key, "digest", 7));
    Entry again = bench.journal.add(checked(group, 5, 0, 0), keyed(key, "digest", 7));

    assertEquals(first, again);
    assertEquals(List.of(15, 5, 0, 0), bench.counts(group));
    refused(
        "different contents",
        () -> bench.journal.add(checked(group, 6, 0, 0), keyed(key, "another", 7)));
  }

  @Test
  void aLotHoldsWhatIsSownOfItAndWasGatheredBefore() {
    GroupId group = bench.sow(200);
    refused("has 300 seeds, but 301", () -> bench.sow(101));
    refused(
        "has 199 seeds", () -> bench.journal.lots().change(bench.lot.id(), Bench.lot(199), NOW));
    refused(
        "earlier than the gathering of its lot",
        () -> bench.journal.sow(bench.lot.id(), null, List.of(new Portion(A, 1)), note(-3)));
    assertEquals(200, bench.journal.lots().sown(bench.lot.id()));
    refused("seed lot 1", () -> bench.journal.removeSpecies("pawpaw"));
    assertEquals(200, bench.state(group).living());
  }

  @Test
  void aContainerWithSeedsInItIsNotForgotten() {
    GroupId group = bench.sow(20);
    refused("lie in it", () -> bench.journal.removeContainer(A));
    bench.move(group, 3, B, null, null, null);
    refused("were in it", () -> bench.journal.removeContainer(A));
    assertTrue(bench.journal.removeContainer(C));
    assertFalse(bench.register.containers().isEmpty());
  }

  @Test
  void storedDataAreReadBackUnchanged() {
    GroupId group = bench.sow(20);
    bench.check(group, 7, 5, 1, 2);
    bench.move(group, 8, B, 4, 0, null);
    SeedJournal again = new SeedJournal(bench.store, bench.register);

    assertEquals(bench.journal.entries(), again.entries());
    assertEquals(
        bench.timeline(group).groups(),
        again.sowing(group.sowing()).map(Sowing::timeline).orElseThrow().groups());
  }
}
