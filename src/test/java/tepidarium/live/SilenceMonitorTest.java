package tepidarium.live;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.IntStream;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import tepidarium.alert.Alert;
import tepidarium.alert.AlertBoard;
import tepidarium.alert.AlertKind;
import tepidarium.alert.AlertRules;
import tepidarium.alert.MemoryAlerts;
import tepidarium.alert.RemainingError;
import tepidarium.container.Band;
import tepidarium.container.ContainerId;
import tepidarium.container.ContainerKind;
import tepidarium.container.ContainerSettings;
import tepidarium.container.MemoryContainers;
import tepidarium.container.Register;
import tepidarium.reading.SensorId;
import tepidarium.reading.Span;
import tepidarium.series.StoreException;

class SilenceMonitorTest {
  private static final Instant START = Instant.parse("2026-03-01T06:00:00Z");
  private static final SensorId SENSOR = new SensorId("s");
  private static final Duration LIMIT = Duration.ofMinutes(30);
  private static final Duration GRACE = Duration.ofMinutes(10);

  private final Register register = new Register(new MemoryContainers());
  private final MemoryAlerts store = new MemoryAlerts();
  private final AlertRules rules = new AlertRules(store, LIMIT, RemainingError.NONE);
  private final AlertBoard board = new AlertBoard(store, rules, LIMIT, (before, after, t) -> {});
  private final List<Integer> stored = new ArrayList<>();
  private int queries;
  private boolean storeAnswers = true;
  private Duration longestSpan = Duration.ZERO;
  private long nanos;
  private Duration queryTime = Duration.ZERO;
  private final UsualIntervals intervals = new UsualIntervals(this::instants, () -> nanos);
  private final SilenceMonitor monitor =
      new SilenceMonitor(register, rules, board, intervals, GRACE);

  @BeforeEach
  void theStoreIsKnown() {
    monitor.storeAnswered();
  }

  private long[] instants(SensorId sensor, Span span) {
    queries++;
    longestSpan = span.length().compareTo(longestSpan) > 0 ? span.length() : longestSpan;
    nanos += queryTime.toNanos();
    if (!storeAnswers) {
      throw new StoreException("away", null);
    }
    return stored.stream()
        .mapToLong(minute -> minute(minute).toEpochMilli())
        .filter(at -> at >= span.fromMs() && at <= span.toMs())
        .toArray();
  }

  private void hear(int... minutes) {
    for (int minute : minutes) {
      stored.add(minute);
      monitor.heard(SENSOR, minute(minute));
    }
  }

  private static Instant minute(int minute) {
    return START.plusSeconds(minute * 60L);
  }

  private void place(SensorId... sensors) {
    ContainerSettings jar =
        new ContainerSettings("Jar", ContainerKind.JAR, null, 15, null, Band.DEFAULT);
    ContainerId container = register.add(jar, START).id();
    for (SensorId sensor : sensors) {
      register.place(sensor, container, START, null);
    }
  }

  private List<AlertKind> openAt(int minute) {
    monitor.check(minute(minute));
    return board.open().stream().map(Alert::kind).toList();
  }

  @Test
  void aSensorIsSilentAfterTheLimit() {
    place(SENSOR);
    monitor.linkUp(START);
    monitor.heard(SENSOR, minute(5));
    assertEquals(List.of(), openAt(35));
    assertEquals(List.of(AlertKind.SILENT), openAt(36));
  }

  @Test
  void nothingIsReportedWhileTheLinkIsDownNorWithinTheGraceTime() {
    place(SENSOR);
    assertEquals(List.of(), openAt(60), "the link was never up");
    monitor.linkUp(minute(60));
    assertEquals(List.of(), openAt(70), "grace time");
    assertEquals(List.of(AlertKind.SILENT), openAt(71));
    monitor.linkDown();
    monitor.heard(SENSOR, minute(72));
    assertEquals(List.of(AlertKind.SILENT), openAt(73), "kept while the link is down");
  }

  @Test
  void afterTheClockWasSetBackSilenceCountsFromNow() {
    place(SENSOR);
    monitor.linkUp(minute(600));
    monitor.heard(SENSOR, minute(600));
    monitor.clampToNow(minute(10));
    assertEquals(List.of(), openAt(40));
    assertEquals(List.of(AlertKind.SILENT), openAt(41));
  }

  @Test
  void aSensorWhoseBacklogArrivesIsNotSilentUntilTheGraceTimeIsOver() {
    place(SENSOR);
    monitor.linkUp(START);
    monitor.backlogArrived(SENSOR, minute(5), minute(600));
    assertEquals(List.of(), openAt(610));
    assertEquals(List.of(AlertKind.SILENT), openAt(611));
    monitor.backlogArrived(SENSOR, minute(20), minute(620));
    assertEquals(List.of(AlertKind.SILENT), openAt(621), "kept while its backlog arrives");
  }

  @Test
  void aSensorWithALateClockHidesNoSilentOne() {
    SensorId late = new SensorId("late");
    place(SENSOR, late);
    monitor.linkUp(START);
    monitor.heard(SENSOR, minute(5));
    monitor.backlogArrived(late, minute(-120), minute(35));
    assertEquals(List.of(), openAt(35));
    monitor.backlogArrived(late, minute(-119), minute(36));
    assertEquals(List.of(AlertKind.SILENT), openAt(36));
  }

  @Test
  void aSensorThatWasJustPlacedHasTimeToSend() {
    place(SENSOR);
    monitor.linkUp(START);
    monitor.heard(SENSOR, minute(5));
    monitor.changed(register.containers().get(0).id(), minute(600));
    assertEquals(List.of(), openAt(610), "grace time");
    assertEquals(List.of(AlertKind.SILENT), openAt(611));
  }

  @Test
  void aSensorThatWasNeverHeardHasTheWholeLimitOnceItIsPlaced() {
    place(SENSOR);
    monitor.linkUp(START);
    monitor.changed(register.containers().get(0).id(), minute(600));
    assertEquals(List.of(), openAt(630));
    assertEquals(List.of(AlertKind.SILENT), openAt(631));
  }

  @Test
  void aSensorThatReportsHourlyIsSilentAfterThreeHoursOnceFourReadingsHaveShownIt() {
    place(SENSOR);
    monitor.linkUp(START);
    hear(0, 60, 120);
    assertEquals(List.of(AlertKind.SILENT), openAt(151), "two intervals tell nothing");
    hear(180);
    assertEquals(List.of(), activeAt(181), "an hour is usual now");
    assertEquals(List.of(), activeAt(360));
    assertEquals(List.of(AlertKind.SILENT), activeAt(361));
    assertEquals(minute(180), board.open().get(0).since());
    hear(362);
    assertEquals(List.of(), activeAt(363));
  }

  @Test
  void aSensorThatReportsEveryMinuteHasTheSetLimit() {
    place(SENSOR);
    monitor.linkUp(START);
    hear(IntStream.range(0, 200).toArray());
    assertEquals(List.of(), openAt(229), "three minutes are less than the limit");
    assertEquals(List.of(AlertKind.SILENT), openAt(230));
    monitor.check(minute(231));
    assertEquals(1, queries, "read once for each last reading");
  }

  @Test
  void theSetLimitAloneCountsWhileTheStoreDoesNotAnswer() {
    SensorId other = new SensorId("other");
    place(SENSOR, other);
    monitor.linkUp(START);
    hear(0, 60, 120, 180);
    monitor.heard(other, minute(180));
    storeAnswers = false;
    assertEquals(List.of(AlertKind.SILENT), openAt(211));
    assertEquals(1, queries, "asked once in a round");
    storeAnswers = true;
    stored.add(240);
    monitor.heard(other, minute(240));
    assertEquals(List.of(), activeAt(240));
  }

  @Test
  void whatWasLearnedLastCountsWhileTheStoreDoesNotAnswer() {
    place(SENSOR);
    monitor.linkUp(START);
    hear(1, 61, 121, 181);
    assertEquals(List.of(), openAt(220));
    storeAnswers = false;
    hear(241);
    assertEquals(List.of(), openAt(280));
    assertEquals(List.of(), openAt(421));
    assertEquals(List.of(AlertKind.SILENT), openAt(422));
  }

  @Test
  void intervalsBeforeThePlacementDoNotCount() {
    place(SENSOR);
    monitor.linkUp(START);
    hear(-240, -180, -120, -60, 2);
    assertEquals(List.of(AlertKind.SILENT), openAt(33));
  }

  @Test
  void whatWasLearnedInAnEarlierPlacementDoesNotCount() {
    place(SENSOR);
    monitor.linkUp(START);
    hear(1, 61, 121, 181);
    assertEquals(List.of(), openAt(220));
    register.place(SENSOR, register.containers().get(0).id(), minute(230), null);
    hear(241);
    assertEquals(List.of(AlertKind.SILENT), openAt(272));
  }

  @Test
  void aSensorThatReportsVeryRarelyIsSilentAfterSixHours() {
    place(SENSOR);
    monitor.linkUp(START);
    int day = 24 * 60;
    hear(1, day, 2 * day, 3 * day);
    assertEquals(List.of(), openAt(3 * day + 360));
    assertEquals(List.of(AlertKind.SILENT), openAt(3 * day + 361));
  }

  @Test
  void sensorsForWhichARoundHadNoTimeAreJudgedInTheNext() {
    SensorId other = new SensorId("other");
    place(SENSOR);
    place(other);
    monitor.linkUp(START);
    monitor.heard(SENSOR, minute(2));
    monitor.heard(other, minute(2));
    queryTime = Duration.ofMillis(100);
    assertEquals(List.of(AlertKind.SILENT), openAt(33));
    assertEquals(1, queries);
    assertEquals(List.of(AlertKind.SILENT, AlertKind.SILENT), openAt(34));
    assertEquals(2, queries);
  }

  @Test
  void theStoreIsNotAskedWithinTheGraceTime() {
    place(SENSOR);
    monitor.linkUp(minute(60));
    monitor.heard(SENSOR, minute(5));
    assertEquals(List.of(), openAt(70));
    assertEquals(0, queries);
    assertEquals(List.of(AlertKind.SILENT), openAt(71));
  }

  @Test
  void onlyAsManyReadingsAreReadAsAreUsed() {
    place(SENSOR);
    monitor.linkUp(START);
    hear(IntStream.range(0, 2000).toArray());
    assertEquals(List.of(AlertKind.SILENT), openAt(2030));
    assertEquals(Duration.ofHours(2), longestSpan);
  }

  @Test
  void aSensorThatWasNeverHeardIsNotJudgedBeforeTheStoreHasAnswered() {
    SensorId other = new SensorId("other");
    SilenceMonitor started = new SilenceMonitor(register, rules, board, intervals, GRACE);
    place(SENSOR, other);
    started.linkUp(START);
    started.heard(other, minute(40));
    started.check(minute(41));
    assertEquals(List.of(), board.open());
    started.check(minute(71));
    assertEquals(minute(40), board.open().get(0).since(), "the other one is silent");
    started.heard(other, minute(72));
    started.check(minute(73));
    assertEquals(List.of(AlertKind.SILENT), activeKinds(), "kept while nothing is known");
    started.storeAnswered();
    started.heard(SENSOR, minute(50));
    started.check(minute(74));
    assertEquals(List.of(), activeKinds());
  }

  private List<AlertKind> activeAt(int minute) {
    monitor.check(minute(minute));
    return activeKinds();
  }

  private List<AlertKind> activeKinds() {
    return board.open().stream().filter(Alert::active).map(Alert::kind).toList();
  }
}
