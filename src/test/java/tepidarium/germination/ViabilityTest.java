package tepidarium.germination;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNotNull;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import tepidarium.container.ContainerId;

class ViabilityTest {
  private static final ContainerId BOX = new ContainerId("box");
  private static final ContainerId SHUT = new ContainerId("shut");

  private long sowings;

  /** Seeds sown that many days after they were gathered, looked at once on some day. */
  private Viability.Kept sown(
      long lot, double days, int seeds, int germinated, double lookedAt, Culled... culled) {
    long id = ++sowings;
    GroupId group = new GroupId(id, 1);
    return new Viability.Kept(
        lot,
        days,
        SowingTimeline.of(
            List.of(
                Shelf.entry(
                    id, 0, new Act.Sown(lot, null, List.of(new Act.Part(group, BOX, seeds)))),
                Shelf.entry(
                    id,
                    lookedAt,
                    new Act.Checked(group, germinated, List.of(culled), 0, List.of())))));
  }

  private List<Viability.Kept> falling() {
    return new ArrayList<>(
        List.of(
            sown(1, 0, 20, 18, 50),
            sown(1, 2.5, 20, 15, 50),
            sown(1, 5, 20, 10, 50),
            sown(2, 7.5, 20, 5, 50),
            sown(2, 10, 20, 2, 50)));
  }

  /**
   * By hand: 18, 15, 10, 5 and 2 of 20 after 0 to 10 days lie on the logistic curve with ln(0.9 /
   * 0.1) at 0 days and the half at 5 days: the slope is −ln 9 / 5.
   */
  @Test
  void theCurveOfTheRecordIsFitted() {
    Viability found = Viability.of(falling(), null);
    assertNull(found.reason());
    assertEquals(-Math.log(9) / 5, found.curve().slope(), 1e-9);
    assertEquals(5, found.curve().half(), 1e-9);
    Viability.Estimate fresh = found.after(0);
    assertNotNull(fresh);
    assertEquals(0.9, fresh.fraction(), 1e-9);
    assertTrue(fresh.limits().low() > 0.75 && fresh.limits().high() < 0.98, fresh.toString());
    assertNull(found.after(10.5), "nothing was sown so late");
    assertNull(found.after(-0.1), "nor so early");
  }

  /** Sowings of 20 seeds after 0, 2, 4 … days. */
  private List<Viability.Kept> counts(int... germinated) {
    List<Viability.Kept> record = new ArrayList<>();
    for (int hits : germinated) {
      record.add(sown(1, 2 * record.size(), 20, hits, 50));
    }
    return record;
  }

  /** Remaining seeds seen last on day 20 may still germinate. */
  @Test
  void onlyFinishedSowingsCount() {
    List<Viability.Kept> record = falling();
    record.add(sown(3, 3, 20, 1, 20));
    Viability found = Viability.of(record, null);
    assertEquals(5, found.groups().size());
    assertEquals(1, found.notFinal());
    assertEquals(6, Viability.of(record, 20.0).groups().size(), "given up after 20 days");
  }

  @Test
  void seedsTakenOutOrNeverLookedAtAreNotCounted() {
    Viability.Kept taken = sown(1, 0, 20, 10, 50, new Culled(6, CullReason.TAKEN, false));
    GroupId seen = new GroupId(99, 1);
    GroupId unseen = new GroupId(99, 2);
    SowingTimeline half =
        SowingTimeline.of(
            List.of(
                Shelf.entry(
                    99,
                    0,
                    new Act.Sown(
                        1,
                        null,
                        List.of(new Act.Part(seen, BOX, 8), new Act.Part(unseen, SHUT, 30)))),
                Shelf.entry(99, 50, new Act.Checked(seen, 4, List.of(), 0, List.of()))));
    Viability found = Viability.of(List.of(taken, new Viability.Kept(2, 3, half)), null);
    assertEquals(new Viability.Group(1, 0, 10, 14), found.groups().get(0));
    assertEquals(new Viability.Group(2, 3, 4, 8), found.groups().get(1));
  }

  @Test
  void sowingsOfALotWithinADayAreOneGroup() {
    List<Viability.Kept> record = falling();
    record.add(sown(1, 0.5, 20, 16, 50));
    Viability.Group first = Viability.of(record, null).groups().get(0);
    assertEquals(new Viability.Group(1, 0.25, 34, 40), first);
  }

  @Test
  void aRecordWithoutACurveHasAReason() {
    Viability few = Viability.of(falling().subList(0, 4), null);
    assertNull(few.curve());
    assertNull(few.after(0));
    assertTrue(few.reason().endsWith("there are 4, with 4"), few.reason());
    List<Viability.Kept> twoDays = new ArrayList<>();
    for (int lot = 1; lot <= 3; lot++) {
      twoDays.add(sown(lot, 0, 20, 15, 50));
      twoDays.add(sown(lot, 5, 20, 5, 50));
    }
    assertTrue(Viability.of(twoDays, null).reason().endsWith("there are 6, with 2"));
    Viability flat = Viability.of(counts(10, 11, 9, 10, 10), null);
    assertTrue(flat.reason().contains("do not show"), flat.reason());
    Viability steep = Viability.of(counts(20, 20, 20, 0, 0), null);
    assertTrue(steep.reason().contains("slope is not identified"), steep.reason());
    assertFalse(Viability.of(List.of(), null).reason().isEmpty());
  }
}
