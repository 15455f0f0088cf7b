package tepidarium.alert;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.time.Duration;
import java.time.Instant;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.List;
import java.util.NoSuchElementException;
import org.junit.jupiter.api.Test;
import tepidarium.container.Band;
import tepidarium.container.ContainerId;

class AlertBoardTest {
  private static final Instant START = Instant.parse("2026-03-01T00:00:00Z");
  private static final ContainerId JAR = new ContainerId("jar");
  private static final Duration GAP = Duration.ofMinutes(30);

  private final MemoryAlerts store = new MemoryAlerts();
  private final List<Alert> told = new ArrayList<>();
  private AlertBoard board = open();

  private AlertBoard open() {
    return new AlertBoard(store, GAP, GAP, told::add);
  }

  private void temperature(int minute, double value) {
    board.observe(JAR, AlertKind.COLD, Band.DEFAULT, START.plusSeconds(minute * 60L), value);
  }

  private Alert onlyOpen() {
    assertEquals(1, board.open().size(), () -> "open: " + board.open());
    return board.open().get(0);
  }

  private void coldForTenMinutes() {
    temperature(0, 28);
    temperature(5, 26);
    temperature(10, 27);
  }

  private void warmFrom(int minute) {
    temperature(minute, 31);
    temperature(minute + 10, 31);
  }

  @Test
  void anAlertIsRaisedOnceAndKeepsItsWorstValue() {
    coldForTenMinutes();
    temperature(15, 25);
    temperature(20, 28);
    Alert alert = onlyOpen();
    assertEquals(START, alert.since());
    assertEquals(25, alert.worst());
    assertEquals(28, alert.latest());
    assertEquals(1, told.size());
    assertEquals(LimitState.ALERT, board.states(JAR).get(AlertKind.COLD));
    assertEquals(LimitState.UNKNOWN, board.states(JAR).get(AlertKind.HOT));
  }

  @Test
  void itStaysOpenUntilItHasReturnedAndIsAcknowledged() {
    coldForTenMinutes();
    warmFrom(15);
    assertFalse(onlyOpen().active());
    board.acknowledge(onlyOpen().id(), "Ada", START.plusSeconds(3_600));
    assertTrue(board.open().isEmpty());
    assertEquals("Ada", store.newest(1).get(0).acknowledgedBy());
    assertEquals(3, told.size());
  }

  @Test
  void acknowledgedFirstItClosesWhenItReturns() {
    coldForTenMinutes();
    board.acknowledge(onlyOpen().id(), "Ada", START.plusSeconds(660));
    assertTrue(onlyOpen().active());
    warmFrom(15);
    assertTrue(board.open().isEmpty());
  }

  @Test
  void activeAgainBeforeAcknowledgementItIsTheSameAlert() {
    coldForTenMinutes();
    long id = onlyOpen().id();
    warmFrom(15);
    temperature(30, 26);
    temperature(40, 26);
    assertEquals(id, onlyOpen().id());
    assertTrue(onlyOpen().active());
    assertNull(onlyOpen().returnedAt());
  }

  @Test
  void aLateReadingRaisesNothing() {
    temperature(60, 31);
    coldForTenMinutes();
    assertTrue(board.open().isEmpty());
  }

  @Test
  void shelvingEndsByItself() {
    coldForTenMinutes();
    Instant until = START.plusSeconds(7_200);
    board.shelve(onlyOpen().id(), until);
    assertTrue(onlyOpen().shelvedAt(until.minusSeconds(1)));
    board.tick(until.minusSeconds(1));
    assertEquals(until, onlyOpen().shelvedUntil());
    board.tick(until);
    assertNull(onlyOpen().shelvedUntil());
  }

  @Test
  void aRestartTakesUpWhereItStopped() {
    coldForTenMinutes();
    long id = onlyOpen().id();
    board = open();
    temperature(15, 26);
    assertEquals(id, onlyOpen().id());
    assertEquals(1, told.size(), "no second notice");
    warmFrom(20);
    assertFalse(onlyOpen().active());
  }

  @Test
  void theWorstValueIsSavedByTheTick() {
    coldForTenMinutes();
    temperature(15, 21);
    board.tick(START.plusSeconds(960));
    assertEquals(21, store.newest(1).get(0).worst());
  }

  @Test
  void aContainerThatNothingObservesHasNoActiveAlert() {
    coldForTenMinutes();
    board.unobserved(JAR, START.plusSeconds(900));
    assertFalse(onlyOpen().active());
    board.forget(JAR);
    assertTrue(board.open().isEmpty());
  }

  @Test
  void silenceCountsFromWhenTheSensorWasLastHeard() {
    Instant lastHeard = START.minusSeconds(7_200);
    board.observeSilence(JAR, Band.DEFAULT, START, lastHeard);
    assertEquals(lastHeard, onlyOpen().since());
    assertEquals(120, onlyOpen().latest());
    board.observeSilence(JAR, Band.DEFAULT, START.plusSeconds(60), START.plusSeconds(30));
    assertFalse(onlyOpen().active());
    assertEquals(lastHeard, onlyOpen().since());
  }

  @Test
  void anUnknownAlertCannotBeAcknowledged() {
    assertThrows(NoSuchElementException.class, () -> board.acknowledge(77, "Ada", START));
  }

  @Test
  void theTextSaysWhatAndSinceWhenAndHowBad() {
    coldForTenMinutes();
    String text = AlertText.of(onlyOpen(), "Jar <1>", ZoneId.of("UTC"));
    assertEquals("Jar <1> has been colder than 29.5 °C since 1 Mar 00:00, 26 °C at worst.", text);
  }

  @Test
  void afterTheClockWasSetBackLimitsAreJudgedAgain() {
    temperature(60, 31);
    temperature(1, 26);
    assertEquals(LimitState.INSIDE, board.states(JAR).get(AlertKind.COLD));

    board.forgetAfter(START);

    assertEquals(LimitState.UNKNOWN, board.states(JAR).get(AlertKind.COLD));
    coldForTenMinutes();
    assertFalse(board.open().isEmpty());
  }

  @Test
  void anAlertStaysWhenTheClockIsSetBackAndReturnsInItsTime() {
    coldForTenMinutes();
    Instant before = START.minusSeconds(3_600);

    board.forgetAfter(before);

    assertTrue(onlyOpen().active());
    assertEquals(1, told.size());
    warmFrom(-50);
    assertFalse(onlyOpen().active());
  }

  @Test
  void whatLiesBeforeTheInstantIsNotForgotten() {
    temperature(0, 26);
    board.forgetAfter(START);
    temperature(10, 26);
    assertTrue(onlyOpen().active());
  }
}
