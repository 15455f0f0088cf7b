package tepidarium.alert.notify;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.time.DayOfWeek;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalTime;
import java.time.ZoneOffset;
import java.time.ZonedDateTime;
import java.time.format.DateTimeFormatter;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Random;
import java.util.function.BiFunction;
import java.util.function.Predicate;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import tepidarium.alert.Alert;
import tepidarium.alert.AlertBoard;
import tepidarium.alert.AlertKind;
import tepidarium.alert.AlertRules;
import tepidarium.alert.MemoryAlerts;
import tepidarium.alert.Observation;
import tepidarium.alert.Priority;
import tepidarium.alert.RemainingError;
import tepidarium.alert.Trend;
import tepidarium.container.Band;
import tepidarium.container.ContainerId;

/**
 * A week of six boxes on one shelf, from readings to messages: what a grower gets who wants to
 * sleep and to miss nothing. Invented readings every minute, default rules and a clock of the test.
 */
class ScriptedWeekTest {
  private static final int BOXES = 6;
  private static final ZonedDateTime MONDAY =
      ZonedDateTime.of(2026, 3, 2, 0, 0, 0, 0, ZoneOffset.UTC);
  private static final DateTimeFormatter WHEN =
      DateTimeFormatter.ofPattern("EEE HH:mm", Locale.ENGLISH);
  private static final NoticeSettings SETTINGS =
      new NoticeSettings(
          Duration.ofSeconds(60),
          Duration.ofMinutes(10),
          Duration.ofMinutes(30),
          Duration.ofHours(6),
          true,
          Map.of(
              Priority.LOW, new QuietHours(LocalTime.of(22, 0), LocalTime.of(7, 0)),
              Priority.MEDIUM, new QuietHours(LocalTime.of(22, 0), LocalTime.of(7, 0))),
          null,
          ZoneOffset.UTC,
          Duration.ofHours(24));

  private final MemoryAlerts alerts = new MemoryAlerts();
  private final AlertBoard board =
      new AlertBoard(
          alerts,
          new AlertRules(alerts, Duration.ofMinutes(30), RemainingError.NONE),
          Duration.ofMinutes(30),
          (before, after, transition) -> {});
  private final NoticeRules rules = new NoticeRules(SETTINGS);
  private final NoticeText text = new NoticeText(ZoneOffset.UTC, new Units(false), null);
  private final Map<String, NotificationState> states = new HashMap<>();
  private final Map<String, Instant> pendingSince = new HashMap<>();
  private final Map<ContainerId, Instant> heard = new HashMap<>();
  private final Random jitter = new Random(20_260_305);
  private final List<String> messages = new ArrayList<>();

  @Test
  void theScriptedWeekSendsTheExpectedNotices() {
    run(this::temperatureC, 7 * 24 * 60);

    assertEquals(
        List.of(
            // The power cut. The trend is noticed first; whoever is states acknowledges nothing
            // yet,
            // so the second address is states. The boxes cool and warm at their own pace: those
            // that
            // are past the limit when the first alert is states are states along with it.
            "Tue 10:31 raised: Box 6 is getting too cold, since 3 Mar 10:15",
            "Tue 11:01 escalation: Not acknowledged: Box 6 is getting too cold,"
                + " since 3 Mar 10:15",
            "Tue 11:05 raised: 6 containers: 2 too cold, 4 more past the limit",
            "Tue 14:17 returned: Back to normal: 6 containers: 6 too cold",
            // The cold night: nobody wakes up, so the second address is states.
            "Wed 02:11 raised: Box 2 is too cold, 28 °C at worst, since 4 Mar 02:00",
            "Wed 02:41 escalation: Not acknowledged: Box 2 is too cold, 28 °C at worst,"
                + " since 4 Mar 02:00",
            "Wed 05:11 returned: Back to normal: Box 2 was too cold, 28 °C at worst,"
                + " since 4 Mar 02:00",
            // The jitter of Thursday says nothing. The leak at dawn waits for the morning.
            "Fri 07:00 raised: Box 4 was too bright, 40 lux at worst, since 6 Mar 05:40",
            // The sensor that died; seen at once, so nobody else is states. It lasts, which
            // somebody
            // knows: it is said again a day later.
            "Sat 09:31 raised: Box 5 is silent, since 7 Mar 08:59",
            "Sun 09:45 reminder: Still: Box 5 is silent, since 7 Mar 08:59"),
        messages);
  }

  @ParameterizedTest
  @ValueSource(ints = {1, 2, 3, 4, 5, 6, 7, 8, 9, 10})
  void aPowerCutThatReachesTheLastBoxMinutesAfterTheFirstIsOneMessageEachWay(int apart) {
    run((box, now) -> cut(now, apart * (box - 1) / (BOXES - 1.0)), 4 * 60);
    assertEquals(
        List.of("raised", "escalation", "returned"),
        messages.stream().map(each -> each.split("[ :]+", -1)[3]).toList());
    assertEquals("Mon 01:11", messages.get(0).substring(0, 9));
    assertTrue(messages.get(0).contains(" 6 containers: "), messages.toString());
    assertEquals(
        "escalation: Not acknowledged: 6 containers: 6 too cold", messages.get(1).substring(10));
    assertEquals(
        "returned: Back to normal: 6 containers: 6 too cold", messages.get(2).substring(10));
  }

  /** Slower than that it cannot be one: nobody knows yet that the last ones will follow. */
  @Test
  void boxesTenMinutesApartAreAnnouncedTwoAtATime() {
    run((box, now) -> cut(now, 10.0 * (box - 1)), 135);
    assertEquals(
        List.of(
            "Mon 01:11 raised: 2 containers: 1 too cold, 1 more past the limit",
            "Mon 01:31 raised: 2 containers: 1 too cold, 1 more past the limit",
            "Mon 01:51 raised: 2 containers: 1 too cold, 1 more past the limit"),
        messages.stream().filter(each -> each.contains("raised")).toList());
  }

  /** Below the limit from so many minutes after one until twice as many after two. */
  private static double cut(ZonedDateTime now, double minutesLater) {
    double minute = now.getHour() * 60 + now.getMinute();
    return minute >= 60 + minutesLater && minute < 120 + 2 * minutesLater ? 28 : 30.5;
  }

  private void run(BiFunction<Integer, ZonedDateTime, Double> temperature, int minutes) {
    for (int minute = 0; minute < minutes; minute++) {
      ZonedDateTime now = MONDAY.plusMinutes(minute);
      if (minute % 5 == 0) {
        lookAhead(now.toInstant());
      }
      for (int box = 1; box <= BOXES; box++) {
        report(box, now, temperature.apply(box, now));
      }
      board.tick(now.toInstant());
      acknowledge(now);
      tell(now.toInstant());
    }
  }

  private void report(int box, ZonedDateTime now, double temperatureC) {
    ContainerId id = new ContainerId("box-" + box);
    Instant at = now.toInstant();
    boolean dead = box == 5 && !now.isBefore(MONDAY.plusDays(5).withHour(9));
    if (!dead) {
      heard.put(id, at);
      board.observe(id, Band.DEFAULT, Observation.value(AlertKind.COLD, at, temperatureC), at);
      board.observe(id, Band.DEFAULT, Observation.value(AlertKind.HOT, at, temperatureC), at);
      board.observe(id, Band.DEFAULT, Observation.value(AlertKind.LIGHT, at, lux(box, now)), at);
      board.observe(id, Band.DEFAULT, Observation.value(AlertKind.DRY, at, 97), at);
    }
    board.observeSilence(id, Band.DEFAULT, at, heard.getOrDefault(id, at));
  }

  /** What the trend of the power cut says of box 6, before it is too cold. */
  private void lookAhead(Instant now) {
    ContainerId box = new ContainerId("box-6");
    Instant cut = MONDAY.plusDays(1).withHour(10).toInstant();
    boolean falls = !now.isBefore(cut.plusSeconds(900)) && now.isBefore(cut.plusSeconds(9_000));
    Instant crosses = falls ? cut.plusSeconds(3_214) : null;
    Observation sign =
        Observation.heading(
            AlertKind.HEADING_COLD, now, crosses, falls ? new Trend(30, -1, 22) : null);
    board.observe(box, Band.DEFAULT, sign, now);
  }

  private double temperatureC(int box, ZonedDateTime now) {
    DayOfWeek day = now.getDayOfWeek();
    double hour = now.getHour() + now.getMinute() / 60.0;
    if (day == DayOfWeek.TUESDAY && hour >= 10 && hour < 13) {
      return 30.5 - (1 + 0.02 * box) * (hour - 10);
    }
    if (day == DayOfWeek.TUESDAY && hour >= 13 && hour < 15) {
      return Math.min(30.5, 27.5 - 0.06 * box + (3 - 0.1 * box) * (hour - 13));
    }
    if (day == DayOfWeek.WEDNESDAY && box == 2 && hour >= 2 && hour < 5) {
      return 28;
    }
    if (day == DayOfWeek.THURSDAY && box == 3 && hour >= 12 && hour < 18) {
      return 29.55 + 0.4 * (jitter.nextDouble() - 0.5);
    }
    return 30.5;
  }

  private static double lux(int box, ZonedDateTime now) {
    LocalTime time = now.toLocalTime();
    boolean dawn = !time.isBefore(LocalTime.of(5, 40)) && time.isBefore(LocalTime.of(6, 10));
    return now.getDayOfWeek() == DayOfWeek.FRIDAY && box == 4 && dawn ? 40 : 0;
  }

  /** The grower sees to the power cut after a quarter of an hour, and to the dead sensor too. */
  private void acknowledge(ZonedDateTime now) {
    String when = WHEN.format(now);
    if (when.equals("Tue 11:30") || when.equals("Sat 09:45")) {
      alerts.open().forEach(alert -> board.acknowledge(alert.id(), "Ida", now.toInstant()));
    }
  }

  private void tell(Instant now) {
    Map<String, Alert> known = new LinkedHashMap<>();
    Predicate<Alert> counts = alert -> alert.open() || states.containsKey(AlertSubject.key(alert));
    alerts.newest(1_000).stream()
        .filter(counts)
        .forEach(alert -> known.put(AlertSubject.key(alert), alert));
    List<AlertSubject> concerns =
        known.values().stream().map(a -> AlertSubject.of(a, now)).toList();
    for (AlertSubject subject : concerns) {
      if (rules.pending(subject, states)) {
        pendingSince.putIfAbsent(subject.key(), now);
      }
    }
    List<PendingAlert> coming = PendingAlert.among(alerts.conditions(), known.values(), now);
    NoticeRules.Plan plan = rules.plan(concerns, coming, states, pendingSince, now);
    plan.due().forEach(due -> send(due, known, now));
    plan.stateOnly().forEach(one -> states.put(one.subject(), one));
    plan.removed().forEach(states::remove);
  }

  private void send(NoticeRules.DueNotice due, Map<String, Alert> known, Instant now) {
    List<AlertDetails> situations =
        due.subjects().stream()
            .map(subject -> known.get(subject.key()))
            .map(alert -> new AlertDetails(alert, name(alert.container()), null))
            .toList();
    List<NoticeText.NamedPendingAlert> along =
        due.pendingAlerts().stream()
            .map(one -> new NoticeText.NamedPendingAlert(one, name(one.of().container())))
            .toList();
    Notice notice = text.of(due.kind(), due.priority(), situations, along, List.of(), now);
    String when = WHEN.format(now.atZone(ZoneOffset.UTC));
    messages.add(when + ' ' + due.kind().key() + ": " + notice.subject());
    due.pendingAlerts().forEach(one -> states.put(one.key(), one.announcedAt(now)));
    for (AlertSubject subject : due.subjects()) {
      String key = subject.key();
      states.put(key, NoticeRules.after(due.kind(), subject, states.get(key), now));
      pendingSince.remove(key);
    }
  }

  private static String name(ContainerId id) {
    return "Box " + id.value().charAt(4);
  }
}
