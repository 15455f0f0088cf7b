package tepidarium.alert.notify;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.time.Duration;
import java.time.Instant;
import java.time.LocalTime;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import tepidarium.alert.AlertKey;
import tepidarium.alert.AlertKind;
import tepidarium.alert.Priority;
import tepidarium.container.ContainerId;

/** What is states when, minute by minute, on a clock of the test's own. */
class NoticeRulesTest {
  private static final Instant START = Instant.parse("2026-03-04T08:00:00Z");

  private final Map<String, AlertSubject> concerns = new LinkedHashMap<>();
  private final Map<String, PendingAlert> coming = new LinkedHashMap<>();
  private final Map<String, NotificationState> states = new HashMap<>();
  private final Map<String, Instant> pendingSince = new HashMap<>();
  private final List<String> sent = new ArrayList<>();
  private NoticeRules rules = new NoticeRules(settings(30, 6, true, Map.of()));

  private static NoticeSettings settings(
      int escalateMinutes, int remindHours, boolean returned, Map<Priority, QuietHours> quiet) {
    return new NoticeSettings(
        Duration.ofSeconds(60),
        Duration.ofMinutes(10),
        Duration.ofMinutes(escalateMinutes),
        Duration.ofHours(remindHours),
        returned,
        quiet,
        LocalTime.of(7, 30),
        ZoneId.of("UTC"),
        Duration.ofHours(24));
  }

  private void set(String key, String topic, Priority priority, String state) {
    set(key, topic, priority, state, START);
  }

  private void set(String key, String topic, Priority priority, String state, Instant since) {
    AlertKey of = new AlertKey(new ContainerId(key), AlertKind.COLD);
    concerns.put(
        key,
        new AlertSubject(
            key,
            PendingAlert.key(of),
            topic,
            priority,
            since,
            state.contains("active"),
            state.contains("seen") ? START : null,
            state.contains("shelved")));
  }

  /** Goes past the low limit; its alert is not raised before its on-delay is over. */
  private void goesCold(String key, int minute) {
    AlertKey of = new AlertKey(new ContainerId(key), AlertKind.COLD);
    coming.put(key, new PendingAlert(of, minute(minute), 29));
  }

  private void raised(String key, int sinceMinute) {
    coming.remove(key);
    set(key, "cold", Priority.HIGH, "active", minute(sinceMinute));
  }

  private static Instant minute(int minute) {
    return START.plusSeconds(60L * minute);
  }

  private void cold(String key, String state) {
    set(key, "cold", Priority.HIGH, state);
  }

  /** Lets minutes pass; looks every half minute, as the service does more often. */
  private List<String> pass(int fromMinute, int toMinute) {
    sent.clear();
    for (int half = 2 * fromMinute; half <= 2 * toMinute; half++) {
      look(START.plusSeconds(30L * half));
    }
    return List.copyOf(sent);
  }

  private void look(Instant now) {
    concerns
        .values()
        .forEach(
            c -> {
              if (rules.pending(c, states)) {
                pendingSince.putIfAbsent(c.key(), now);
              } else {
                pendingSince.remove(c.key());
              }
            });
    NoticeRules.Plan plan =
        rules.plan(concerns.values(), coming.values(), states, pendingSince, now);
    for (NoticeRules.DueNotice due : plan.due()) {
      sent.add(
          Duration.between(START, now).toMinutes()
              + " "
              + due.kind().key()
              + " "
              + due.subjects().size()
              + (due.pendingAlerts().isEmpty() ? "" : " + " + due.pendingAlerts().size()));
      due.pendingAlerts().forEach(one -> states.put(one.key(), one.announcedAt(now)));
      due.subjects()
          .forEach(
              c -> {
                states.put(c.key(), NoticeRules.after(due.kind(), c, states.get(c.key()), now));
                pendingSince.remove(c.key());
              });
    }
    plan.stateOnly().forEach(t -> states.put(t.subject(), t));
    states.keySet().removeAll(plan.removed());
  }

  @Test
  void aPowerCutRaisesOneMessageAboutTheWholeShelf() {
    IntStream.range(0, 25).forEach(i -> cold("a" + i, "active"));
    assertEquals(List.of(), pass(0, 0));
    IntStream.range(0, 15).forEach(i -> cold("b" + i, "active"));
    assertEquals(List.of("1 raised 40"), pass(0, 5));
  }

  @Test
  void stragglersOfTheSameKindGoTogetherTenMinutesLater() {
    cold("a", "active");
    assertEquals(List.of("1 raised 1"), pass(0, 2));
    cold("b", "active");
    assertEquals(List.of(), pass(3, 6));
    cold("c", "active");
    assertEquals(List.of("11 raised 2"), pass(7, 15));
    // Another kind does not wait for that.
    set("d", "dry", Priority.HIGH, "active");
    assertEquals(List.of("17 raised 1"), pass(16, 20));
  }

  @Test
  void pendingAlertsAreIncludedInANoticeAndNotAnnouncedAgain() {
    for (int box = 0; box < 5; box++) {
      goesCold("box-" + box, 2 * box);
    }
    raised("box-0", 0);
    assertEquals(List.of("11 raised 1 + 4"), pass(10, 11));
    for (int box = 1; box < 5; box++) {
      raised("box-" + box, 2 * box);
      assertEquals(List.of(), pass(10 + 2 * box, 11 + 2 * box));
    }
    // One message to the second address too, and all that were states are states of when it is
    // over.
    assertEquals(List.of("41 escalation 5"), pass(20, 60));
    for (int box = 0; box < 5; box++) {
      cold("box-" + box, "returned");
      assertEquals(
          box < 4 ? List.of() : List.of("77 returned 5"), pass(61 + 4 * box, 64 + 4 * box));
    }
    assertEquals(List.of(), pass(81, 200));
  }

  @Test
  void aPendingAlertThatReturnsIsAnnouncedTheNextTime() {
    rules = new NoticeRules(settings(10_000, 6, true, Map.of()));
    goesCold("b", 5);
    raised("a", 0);
    assertEquals(List.of("11 raised 1 + 1"), pass(10, 12));
    coming.clear();
    assertEquals(List.of(), pass(13, 30));
    goesCold("b", 31);
    assertEquals(List.of(), pass(31, 40));
    raised("b", 31);
    assertEquals(List.of("42 raised 1"), pass(41, 50));
  }

  @Test
  void aSecondExcursionOfAPendingAlertIsAnnouncedAlthoughNoReadingWasInside() {
    rules = new NoticeRules(settings(10_000, 6, true, Map.of()));
    goesCold("b", 5);
    raised("a", 0);
    assertEquals(List.of("11 raised 1 + 1"), pass(10, 12));
    // Readings stopped for longer than a gap: what follows is another stretch.
    raised("b", 60);
    assertEquals(List.of("71 raised 1"), pass(70, 75));
  }

  @Test
  void pendingAlertsOfAnotherKindAreNotIncludedAndAFollowUpRepeatsNone() {
    goesCold("b", 5);
    set("c", "dry", Priority.HIGH, "active");
    assertEquals(List.of("7 raised 1"), pass(6, 8));
    raised("a", 0);
    assertEquals(List.of("11 raised 1 + 1"), pass(10, 12));
    goesCold("d", 12);
    raised("e", 3);
    assertEquals(List.of("21 raised 1 + 1"), pass(13, 30));
  }

  @Test
  void anAlertIsAnnouncedOnceAndItsReturnOnce() {
    rules = new NoticeRules(settings(10_000, 700, true, Map.of()));
    cold("a", "active");
    assertEquals(List.of("1 raised 1"), pass(0, 600));
    cold("a", "returned");
    assertEquals(List.of("602 returned 1"), pass(601, 700));
    cold("a", "active");
    assertEquals(List.of("702 raised 1"), pass(701, 800));
  }

  @Test
  void withoutReturnNoticesTheNextAlertIsStillAnnounced() {
    rules = new NoticeRules(settings(10_000, 700, false, Map.of()));
    cold("a", "active");
    assertEquals(List.of("1 raised 1"), pass(0, 5));
    cold("a", "returned");
    assertEquals(List.of(), pass(6, 20));
    cold("a", "active");
    assertEquals(List.of("22 raised 1"), pass(21, 30));
  }

  @Test
  void anAlertOverBeforeItsNoticeIsAnnouncedOnce() {
    set("a", "light", Priority.LOW, "returned");
    assertEquals(List.of("1 raised 1"), pass(0, 600));
  }

  @Test
  void acknowledgedAndShelvedAlertsAreNotAnnounced() {
    cold("a", "active seen");
    cold("b", "active shelved");
    assertEquals(List.of(), pass(0, 100));
    cold("b", "active");
    assertEquals(List.of("102 raised 1"), pass(101, 110));
    cold("b", "returned shelved");
    assertEquals(List.of(), pass(111, 200));
  }

  @Test
  void theSecondAddressIsNotifiedOnceWithoutAcknowledgement() {
    cold("a", "active");
    cold("b", "active");
    cold("c", "active");
    assertEquals(List.of("1 raised 3"), pass(0, 10));
    cold("b", "active seen");
    cold("c", "returned");
    // The end of one waits a while for that of the others.
    assertEquals(List.of("31 escalation 1", "41 returned 1"), pass(11, 120));
  }

  @Test
  void theEndWaitsForNoneThatBeganAtAnotherTime() {
    rules = new NoticeRules(settings(10_000, 700, true, Map.of()));
    cold("old", "active");
    assertEquals(List.of("1 raised 1"), pass(0, 60));
    cold("new", "active");
    assertEquals(List.of("62 raised 1"), pass(61, 80));
    cold("new", "returned");
    assertEquals(List.of("82 returned 1"), pass(81, 200));
  }

  @Test
  void lowPriorityIsNeverEscalated() {
    set("a", "light", Priority.LOW, "active");
    assertEquals(List.of("1 raised 1"), pass(0, 120));
  }

  @Test
  void whileItLastsOneReminderForAllComesEverySixHours() {
    rules = new NoticeRules(settings(10_000, 6, true, Map.of()));
    cold("a", "active");
    pass(0, 5);
    set("b", "dry", Priority.HIGH, "active");
    assertEquals(List.of("7 raised 1"), pass(6, 10));
    assertEquals(List.of("361 reminder 2", "721 reminder 2"), pass(11, 800));
    cold("a", "active shelved");
    assertEquals(List.of("1081 reminder 1"), pass(801, 1_100));
  }

  @Test
  void anAcknowledgedAlertHasADailyReminderAndNoEscalation() {
    rules = new NoticeRules(settings(30, 6, true, Map.of()));
    cold("a", "active");
    set("b", "dry", Priority.HIGH, "active");
    assertEquals(List.of("1 raised 2"), pass(0, 5));
    cold("a", "active seen");
    assertEquals(List.of("31 escalation 1", "361 reminder 1"), pass(6, 400));
    set("b", "dry", Priority.HIGH, "active seen");
    // A day after what was states last of each, together where that is within ten minutes.
    assertEquals(List.of("1441 reminder 1", "1801 reminder 1"), pass(401, 2_000));
    assertEquals(List.of("2881 reminder 1"), pass(2_001, 3_000));
  }

  @Test
  void aLongerReminderIntervalAppliesToAcknowledgedAlerts() {
    rules = new NoticeRules(settings(10_000, 48, true, Map.of()));
    cold("a", "active");
    pass(0, 5);
    cold("a", "active seen");
    assertEquals(List.of("2881 reminder 1"), pass(6, 3_000));
  }

  @Test
  void quietHoursDelayLowPrioritiesUntilOneMorningDigest() {
    QuietHours night = new QuietHours(LocalTime.of(22, 0), LocalTime.of(7, 0));
    rules = new NoticeRules(settings(30, 600, true, Map.of(Priority.MEDIUM, night)));
    int evening = 14 * 60;
    set("a", "hot", Priority.MEDIUM, "active");
    set("b", "silent", Priority.MEDIUM, "active");
    assertEquals(List.of(), pass(evening, evening + 120));
    cold("c", "active");
    assertEquals(List.of("961 raised 1", "991 escalation 1"), pass(960, 1_000));
    set("b", "silent", Priority.MEDIUM, "returned");
    int morning = 23 * 60;
    assertEquals(List.of(morning + " raised 2"), pass(1_001, morning + 10));
    assertEquals(NotificationState.Stage.RETURNED, states.get("b").stage());
    // Held back at night, then states: half an hour for somebody to answer begins in the morning.
    assertEquals(List.of((morning + 30) + " escalation 1"), pass(morning + 11, morning + 60));
  }

  @Test
  void aClockThatIsSetBackDoesNotBlockReadings() {
    cold("a", "active");
    pass(60 * 24 * 365, 60 * 24 * 365 + 2);
    cold("b", "active");
    pendingSince.clear();
    assertEquals(
        List.of("1 raised 1"), pass(0, 2).stream().filter(s -> s.contains("raised")).toList());
  }

  @Test
  void removedSubjectsAreForgotten() {
    cold("a", "active");
    pass(0, 5);
    concerns.clear();
    assertEquals(List.of(), pass(6, 10));
    assertEquals(Map.of(), states);
  }

  @Test
  void theSummaryIsDueOnceADayOutsideQuietHours() {
    Instant at = Instant.parse("2026-03-04T07:30:00Z");
    assertFalse(rules.isSummaryDue(null, at.minusMillis(1)));
    assertTrue(rules.isSummaryDue(null, at));
    assertFalse(rules.isSummaryDue(at, at.plusSeconds(1)));
    assertFalse(rules.isSummaryDue(at, at.plus(Duration.ofHours(24)).minusMillis(1)));
    assertTrue(rules.isSummaryDue(at, at.plus(Duration.ofHours(24))));
    // The service was off at the time of the day.
    assertTrue(rules.isSummaryDue(at, at.plus(Duration.ofHours(30))));
    // The clock was set back by a week.
    assertTrue(rules.isSummaryDue(at.plus(Duration.ofDays(7)), at.plusSeconds(60)));

    QuietHours morning = new QuietHours(LocalTime.of(20, 0), LocalTime.of(8, 0));
    NoticeRules quiet = new NoticeRules(settings(30, 6, true, Map.of(Priority.LOW, morning)));
    assertFalse(quiet.isSummaryDue(null, at));
    assertTrue(quiet.isSummaryDue(null, at.plusSeconds(30 * 60)));
  }

  private String waiting(String key, int minute) {
    NoticeWait wait =
        rules.waiting(concerns.get(key), states, pendingSince, START.plusSeconds(60L * minute));
    if (wait == null) {
      return "announced";
    }
    Instant until = wait.until();
    return wait.reason().key()
        + (until == null ? "" : " " + Duration.between(START, until).toSeconds());
  }

  @Test
  void anAlertTellsWhyItWaits() {
    cold("jar", "active");
    look(minute(0));
    assertEquals("collecting 60", waiting("jar", 0));
    pass(1, 1);
    assertEquals("announced", waiting("jar", 1));
    set("box", "cold", Priority.HIGH, "active", minute(3));
    look(minute(3));
    assertEquals("grouped " + (60 + 600), waiting("box", 3));
    set("tray", "dry", Priority.HIGH, "active seen", minute(3));
    assertEquals("acknowledged", waiting("tray", 3));
    set("tray", "dry", Priority.HIGH, "active shelved", minute(3));
    assertEquals("paused", waiting("tray", 3));
  }

  @Test
  void anAlertInQuietHoursTellsTheirEnd() {
    QuietHours night = new QuietHours(LocalTime.of(7, 0), LocalTime.of(9, 30));
    rules = new NoticeRules(settings(30, 6, true, Map.of(Priority.LOW, night)));
    set("jar", "hot", Priority.LOW, "active");
    look(minute(0));
    assertEquals("quiet " + 90 * 60, waiting("jar", 0));
    look(minute(90));
    assertEquals("announced", waiting("jar", 90));
  }
}
