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
import java.util.Map;
import java.util.NoSuchElementException;
import org.junit.jupiter.api.Test;
import tepidarium.container.Band;
import tepidarium.container.ContainerId;
import tepidarium.reading.Span;

class AlertBoardTest {
  private static final Instant START = Instant.parse("2026-03-01T00:00:00Z");
  private static final ContainerId JAR = new ContainerId("jar");
  private static final Duration GAP = Duration.ofMinutes(30);

  private final MemoryAlerts store = new MemoryAlerts();
  private final List<Alert> told = new ArrayList<>();
  private AlertRules rules = new AlertRules(store, GAP, RemainingError.NONE);
  private AlertBoard board = open();

  private AlertBoard open() {
    rules = new AlertRules(store, GAP, RemainingError.NONE);
    return new AlertBoard(store, rules, GAP, (before, after, transition) -> told.add(after));
  }

  private static Instant minute(int minute) {
    return START.plusSeconds(minute * 60L);
  }

  private void observe(Observation sign) {
    board.observe(JAR, Band.DEFAULT, sign, sign.at());
  }

  private void temperature(int minute, double value) {
    observe(Observation.value(AlertKind.COLD, minute(minute), value));
  }

  private List<String> transitions() {
    return store.transitions().stream().map(one -> one.what().key()).toList();
  }

  private void change(AlertKind kind, RuleChange change, int minute) {
    board.change(JAR, Map.of(kind, change), "Ada", "why not", minute(minute));
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
  void anAlertStaysOpenUntilItHasReturnedAndIsAcknowledged() {
    coldForTenMinutes();
    warmFrom(15);
    assertFalse(onlyOpen().active());
    board.acknowledge(onlyOpen().id(), "Ada", START.plusSeconds(3_600));
    assertTrue(board.open().isEmpty());
    assertEquals("Ada", store.newest(1).get(0).acknowledgedBy());
    assertEquals(3, told.size());
  }

  @Test
  void anAcknowledgedAlertClosesWhenItReturns() {
    coldForTenMinutes();
    board.acknowledge(onlyOpen().id(), "Ada", START.plusSeconds(660));
    assertTrue(onlyOpen().active());
    warmFrom(15);
    assertTrue(board.open().isEmpty());
  }

  @Test
  void anAlertActiveAgainBeforeAcknowledgementIsTheSame() {
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
  void anAlertActiveAgainTellsOfThePresentTimeAndKeepsThePastOneInItsTransitions() {
    coldForTenMinutes();
    temperature(11, 19);
    board.shelve(onlyOpen().id(), minute(999), "Ada", null, minute(12));
    warmFrom(15);
    RuleOverride urgent = new RuleOverride(null, null, null, null, Priority.MEDIUM);
    change(AlertKind.COLD, new RuleChange(urgent, null), 26);
    temperature(30, 27);
    temperature(40, 26);
    Alert again = onlyOpen();
    assertEquals(minute(30), again.since());
    assertEquals(minute(40), again.raisedAt());
    assertEquals(26, again.worst());
    assertEquals(Priority.MEDIUM, again.priority());
    assertEquals("Ada", again.shelvedBy());
    assertEquals(List.of("raised", "shelved", "returned", "raised"), transitions());
    assertEquals(
        "the time before was from 2026-03-01T00:00:00Z to 2026-03-01T00:25:00Z, 19 °C at worst",
        store.transitions().get(3).note());
    assertEquals(
        List.of(AlertReason.Code.BEFORE.with(minute(0), minute(25), 19.0, "°C")),
        store.transitions().get(3).reasons());
    board = open();
    assertEquals(List.of(again), board.open());
  }

  @Test
  void lateReadingsOfAnEarlierTimeOfAnOpenAlertAreNotFoundAgain() {
    coldForTenMinutes();
    warmFrom(15);
    temperature(300, 26);
    temperature(310, 26);
    foundLate(2, 12, 20, 24);
    assertEquals(List.of("raised", "returned", "raised"), transitions());
    assertEquals(minute(300), onlyOpen().since());
    foundLate(100, 110, 120, 24);
    assertEquals(2, store.history(new AlertFilter(JAR, null, null, 9)).size());
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
    board.shelve(onlyOpen().id(), until, "Ada", "the mat is on its way", minute(11));
    assertTrue(onlyOpen().shelvedAt(until.minusSeconds(1)));
    board.tick(until.minusSeconds(1));
    assertEquals(until, onlyOpen().shelvedUntil());
    assertEquals("Ada", onlyOpen().shelvedBy());
    board.tick(until);
    assertNull(onlyOpen().shelvedUntil());
    assertNull(onlyOpen().shelvedBy());
    assertEquals(List.of("raised", "shelved", "unshelved"), transitions());
    assertEquals("the mat is on its way", store.transitions().get(1).note());
    assertNull(store.transitions().get(2).by());
  }

  @Test
  void shelvingCanBeEndedByHand() {
    coldForTenMinutes();
    board.unshelve(onlyOpen().id(), "Ada", minute(11));
    assertEquals(List.of("raised"), transitions());
    board.shelve(onlyOpen().id(), minute(99), "Ada", null, minute(12));
    board.unshelve(onlyOpen().id(), "Ida", minute(13));
    assertNull(onlyOpen().shelvedUntil());
    assertEquals("Ida", store.transitions().get(2).by());
  }

  @Test
  void aKindOutOfServiceRaisesNoAlertUntilItIsBack() {
    change(AlertKind.COLD, new RuleChange(null, false), 0);
    coldForTenMinutes();
    assertEquals(List.of(), board.open());
    assertEquals("why not", rules.outOfService(new AlertKey(JAR, AlertKind.COLD)).reason());
    board = open();
    temperature(20, 20);
    temperature(40, 20);
    assertEquals(List.of(), board.open());
    change(AlertKind.COLD, new RuleChange(null, true), 45);
    temperature(50, 20);
    assertEquals(List.of(), board.open());
    temperature(60, 20);
    assertEquals(minute(50), onlyOpen().since());
    assertEquals(List.of("outOfService", "inService", "raised"), transitions());
  }

  @Test
  void anOpenAlertIsClosedWhenItsKindGoesOutOfService() {
    coldForTenMinutes();
    change(AlertKind.COLD, new RuleChange(null, false), 12);
    assertEquals(List.of(), board.open());
    Alert closed = store.newest(1).get(0);
    assertEquals(minute(12), closed.returnedAt());
    assertEquals("Ada", closed.acknowledgedBy());
    assertEquals(List.of("raised", "outOfService"), transitions());
    change(AlertKind.COLD, new RuleChange(null, false), 13);
    assertEquals(2, transitions().size());
  }

  @Test
  void anOverrideHoldsForItsContainerAloneAndCanBeTakenBack() {
    RuleOverride slow = new RuleOverride(null, 1.5, Duration.ofMinutes(60), null, Priority.LOW);
    change(AlertKind.COLD, new RuleChange(slow, null), 0);
    coldForTenMinutes();
    assertEquals(List.of(), board.open());
    board.save();
    board = open();
    for (int minute = 15; minute <= 60; minute += 15) {
      temperature(minute, 26);
    }
    assertEquals(Priority.LOW, onlyOpen().priority());
    AlertKey key = new AlertKey(JAR, AlertKind.COLD);
    change(AlertKind.COLD, new RuleChange(RuleOverride.NONE, null), 61);
    assertEquals(rules.standard(AlertKind.COLD, Band.DEFAULT), rules.effective(key, Band.DEFAULT));
  }

  @Test
  void anInvalidOverrideIsRefused() {
    RuleOverride limit = new RuleOverride(20.0, null, null, null, null);
    assertThrows(IllegalArgumentException.class, () -> limit.check(AlertKind.COLD));
    limit.check(AlertKind.SILENT);
    assertThrows(
        IllegalArgumentException.class,
        () -> new RuleOverride(null, -1.0, null, null, null).check(AlertKind.COLD));
    assertThrows(
        IllegalArgumentException.class,
        () -> new RuleOverride(null, null, Duration.ofDays(2), null, null).check(AlertKind.SILENT));
  }

  @Test
  void dryingAndColdAreMoreSevereThanSlightWarmth() {
    for (AlertKind kind : AlertKind.values()) {
      Priority priority = rules.standard(kind, Band.DEFAULT).priority();
      boolean first = kind == AlertKind.COLD || kind == AlertKind.DRY;
      assertEquals(first, priority == Priority.HIGH, kind.key());
    }
  }

  @Test
  void aFaultySensorIsReportedWithItsSigns() {
    List<AlertReason> signs =
        List.of(
            AlertReason.Code.POWER_ON.with("lid-1"),
            AlertReason.Code.STUCK.with("lid-2", "humidity", 61.0, 6.2));
    observe(Observation.faults(minute(0), signs));
    observe(Observation.faults(minute(10), signs));
    String words =
        "lid-1: exactly 85 °C, which a DS18B20 reports after power-up without a measurement: check"
            + " its supply and cable; lid-2 reports 61 % without any change for 6 h, while other"
            + " sensors changed: restart it, check its wiring";
    assertEquals(words, onlyOpen().detail());
    assertEquals(signs, onlyOpen().reasons());
    assertEquals(signs, store.transitions().get(0).reasons());
    observe(Observation.faults(minute(20), List.of()));
    observe(Observation.faults(minute(50), List.of()));
    assertFalse(onlyOpen().active());
    assertEquals(words, onlyOpen().detail());
    assertEquals(signs, onlyOpen().reasons());
  }

  @Test
  void aForecastHasATimeAndEndsWhenTheLimitIsCrossed() {
    Instant crossing = minute(90);
    Trend first = new Trend(31, -1, 20);
    Trend then = new Trend(30.8, -1.1, 19);
    observe(Observation.heading(AlertKind.HEADING_COLD, minute(0), crossing, first));
    observe(Observation.heading(AlertKind.HEADING_COLD, minute(15), crossing, then));
    assertEquals(crossing, onlyOpen().forecastAt());
    assertEquals(then, onlyOpen().trend());
    assertEquals(List.of(then.reason()), onlyOpen().reasons());
    assertEquals(then.reason().words(), onlyOpen().detail());
    assertEquals(75, onlyOpen().latest());
    temperature(20, 29);
    temperature(30, 29);
    assertEquals(List.of("raised", "raised", "returned"), transitions());
    assertEquals(AlertKind.HEADING_COLD, store.transitions().get(2).key().kind());
    observe(Observation.heading(AlertKind.HEADING_COLD, minute(31), minute(31), null));
    observe(Observation.heading(AlertKind.HEADING_COLD, minute(59), minute(59), null));
    assertEquals(3, transitions().size());
  }

  @Test
  void aSteadyTemperatureGivesNoForecast() {
    assertEquals(
        7 * 24 * 60, Observation.heading(AlertKind.HEADING_HOT, START, null, null).value());
    Instant farAway = START.plus(Duration.ofDays(900));
    Observation far = Observation.heading(AlertKind.HEADING_HOT, START, farAway, null);
    assertEquals(7 * 24 * 60, far.value());
    assertNull(far.forecastAt());
    Instant gone = START.minusSeconds(60);
    assertEquals(0, Observation.heading(AlertKind.HEADING_HOT, START, gone, null).value());
  }

  private void foundLate(int since, int raised, int ended, double worst) {
    PastExcursion past = new PastExcursion(minute(since), minute(raised), minute(ended), worst);
    Span late = new Span(minute(since), minute(ended));
    board.foundLate(new AlertKey(JAR, AlertKind.COLD), Band.DEFAULT, past, late, minute(999));
  }

  @Test
  void anAlertFoundInLateReadingsIsMarkedOnceAndNeverOpen() {
    foundLate(0, 10, 60, 20);
    assertEquals(List.of(), board.open());
    assertEquals(List.of(), store.newest(9));
    foundLate(0, 10, 60, 20);
    foundLate(30, 40, 90, 18);
    Alert found = store.history(new AlertFilter(JAR, null, null, 9)).get(0);
    assertTrue(found.foundLate());
    assertEquals(minute(0), found.since());
    assertEquals(minute(90), found.returnedAt());
    assertEquals(18, found.worst());
    assertEquals(List.of("foundLate"), transitions());
    foundLate(200, 210, 220, 20);
    assertEquals(2, store.history(new AlertFilter(JAR, null, null, 9)).size());
  }

  @Test
  void lateReadingsCanShowThatAnAlertBeganEarlier() {
    coldForTenMinutes();
    foundLate(-60, -50, 10, 19);
    assertEquals(minute(-60), onlyOpen().since());
    assertEquals(19, onlyOpen().worst());
    foundLate(-60, -50, 10, 19);
    assertEquals(List.of("raised", "foundLate"), transitions());
    warmFrom(15);
    assertFalse(onlyOpen().active());
  }

  @Test
  void aRestartContinuesWhereTheServiceStopped() {
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
  void theTextStatesKindStartAndWorstValue() {
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
  void rollupsBeforeTheInstantAreKept() {
    temperature(0, 26);
    board.forgetAfter(START);
    temperature(10, 26);
    assertTrue(onlyOpen().active());
  }
}
