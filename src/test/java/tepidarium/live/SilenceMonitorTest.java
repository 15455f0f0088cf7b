package tepidarium.live;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.IntStream;
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
  private final UsualIntervals intervals = new UsualIntervals(this::instants);
  private final SilenceMonitor monitor =
      new SilenceMonitor(register, rules, board, intervals, GRACE);

  private long[] instants(SensorId sensor, Span span) {
    queries++;
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

  private List<AlertKind> activeAt(int minute) {
    monitor.check(minute(minute));
    return board.open().stream().filter(Alert::active).map(Alert::kind).toList();
  }
}
