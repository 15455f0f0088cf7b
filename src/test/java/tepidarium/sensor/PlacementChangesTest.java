package tepidarium.sensor;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.time.Instant;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.function.Executable;
import tepidarium.container.ContainerId;
import tepidarium.container.Placement;
import tepidarium.reading.InvalidInput;
import tepidarium.reading.SensorId;

class PlacementChangesTest {
  private static final SensorId SENSOR = new SensorId("probe");
  private static final ContainerId JAR = new ContainerId("jar");
  private static final ContainerId BAG = new ContainerId("bag");
  private static final Instant FIRST = day(1).plusSeconds(45);

  private static Instant day(int day) {
    return Instant.parse("2026-03-01T00:00:00Z").plusSeconds(86_400L * (day - 1));
  }

  private static Placement in(ContainerId container, int from, @Nullable Integer until) {
    return new Placement(SENSOR, container, day(from), until == null ? null : day(until));
  }

  private static PlacementChanges after(Placement... placements) {
    return new PlacementChanges(
        SENSOR, List.of(placements), FIRST, day(20), id -> "The " + id.value());
  }

  private static void refused(Executable change, String... words) {
    String said = assertThrows(InvalidInput.class, change).getMessage();
    for (String word : words) {
      assertTrue(said.contains(word), said);
    }
  }

  @Test
  void aMoveInThePastEndsThePresentPlacement() {
    assertEquals(
        List.of(in(JAR, 2, 5), in(BAG, 5, null)), after(in(JAR, 2, null)).moved(BAG, day(5)));
    assertEquals(List.of(in(JAR, 2, 5)), after(in(JAR, 2, null)).moved(null, day(5)));
    assertEquals(List.of(in(BAG, 5, null)), after().moved(BAG, day(5)));
    assertEquals(List.of(in(JAR, 2, 4), in(BAG, 5, null)), after(in(JAR, 2, 4)).moved(BAG, day(5)));
  }

  @Test
  void aMoveAtTheStartOfAPlacementReplacesIt() {
    assertEquals(List.of(in(BAG, 2, null)), after(in(JAR, 2, null)).moved(BAG, day(2)));
  }

  @Test
  void aMoveBeforeTheFirstReadingIsRefusedWithTheEarliestTime() {
    refused(
        () -> after().moved(BAG, day(1).minusSeconds(1)),
        "before the first reading of probe",
        "Choose " + FIRST + " or later");
    // A page enters whole minutes.
    assertEquals(List.of(in(BAG, 1, null)), after().moved(BAG, day(1)));
  }

  @Test
  void aSensorThatWasNotHeardIsPlacedFromNowOnOnly() {
    PlacementChanges unheard = new PlacementChanges(SENSOR, List.of(), null, day(20), id -> "");
    assertEquals(List.of(in(BAG, 20, null)), unheard.moved(BAG, day(20)));
    refused(() -> unheard.moved(BAG, day(19)), "not been heard yet", "Leave the time empty");
  }

  @Test
  void aMoveThatOverlapsALaterPlacementIsRefusedWithThatPlacement() {
    refused(
        () -> after(in(JAR, 5, null)).moved(BAG, day(3)),
        "overlaps another placement",
        "in \"The jar\" from " + day(5),
        "Choose a later time");
    refused(
        () -> after(in(JAR, 2, 4), in(ContainerId.ROOM, 6, 7)).retired(day(3)),
        "in the room from " + day(6) + " until " + day(7));
  }

  @Test
  void aMoveToTheSamePlaceOrIntoTheFutureIsRefused() {
    refused(() -> after(in(JAR, 2, null)).moved(JAR, day(5)), "already", "correct that placement");
    refused(() -> after().moved(JAR, day(21)), "in the future", "Choose now");
    refused(() -> after().moved(null, day(3)), "in no container");
  }

  @Test
  void aRetiredSensorLeavesItsContainerAndKeepsItsPast() {
    assertEquals(
        List.of(in(JAR, 2, 4), in(BAG, 4, 9)),
        after(in(JAR, 2, 4), in(BAG, 4, null)).retired(day(9)));
    assertEquals(List.of(in(JAR, 2, 4)), after(in(JAR, 2, 4)).retired(day(9)));
  }

  @Test
  void anotherSensorTakesOverThePresentOrTheLastPlacement() {
    SensorId spare = new SensorId("spare");
    PlacementChanges next = new PlacementChanges(spare, List.of(), FIRST, day(20), id -> "");
    Placement broken = after(in(JAR, 2, null)).takenOver(day(8));
    assertEquals(List.of(new Placement(spare, JAR, day(8), null)), next.replacing(broken, day(8)));
    Placement takenOut = after(in(BAG, 1, 2), in(JAR, 2, 6)).takenOver(day(8));
    assertEquals(
        List.of(new Placement(spare, JAR, day(8), null)), next.replacing(takenOut, day(8)));
    refused(() -> after(in(JAR, 2, 6)).takenOver(day(1)), "overlaps");
    refused(() -> after().takenOver(day(1)), "in no container before");
  }

  @Test
  void aSensorThatIsPlacedElsewhereCannotTakeOver() {
    refused(
        () -> after(in(BAG, 3, null)).replacing(in(JAR, 2, null), day(8)),
        "in \"The bag\"",
        "Take it out of there first");
  }

  @Test
  void correctedPlacementsMustNotOverlap() {
    PlacementChanges changes = after(in(JAR, 2, null));
    assertEquals(
        List.of(in(JAR, 2, 4), in(BAG, 4, null)),
        changes.corrected(List.of(in(BAG, 4, null), in(JAR, 2, 4))));
    refused(
        () -> changes.corrected(List.of(in(JAR, 2, 5), in(BAG, 4, null))),
        "overlaps another placement",
        "until " + day(5),
        "End that placement");
    refused(() -> changes.corrected(List.of(in(JAR, 2, null), in(BAG, 4, 6))), "overlaps");
    refused(() -> changes.corrected(List.of(in(JAR, -3, 2))), "before the first reading");
    assertEquals(List.of(), changes.corrected(List.of()));
  }

  @Test
  void aPlacementFromBeforeTheFirstReadingMayStay() {
    PlacementChanges early = after(in(JAR, -3, null));
    assertEquals(List.of(in(JAR, -3, 5)), early.corrected(List.of(in(JAR, -3, 5))));
    assertEquals(List.of(in(JAR, -3, 5), in(BAG, 5, null)), early.moved(BAG, day(5)));
  }
}
