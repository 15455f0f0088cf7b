package tepidarium.live;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.time.Duration;
import java.time.Instant;
import java.util.List;
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

class SilenceMonitorTest {
  private static final Instant START = Instant.parse("2026-03-01T06:00:00Z");
  private static final SensorId SENSOR = new SensorId("s");
  private static final Duration LIMIT = Duration.ofMinutes(30);
  private static final Duration GRACE = Duration.ofMinutes(10);

  private final Register register = new Register(new MemoryContainers());
  private final MemoryAlerts store = new MemoryAlerts();
  private final AlertRules rules = new AlertRules(store, LIMIT, RemainingError.NONE);
  private final AlertBoard board = new AlertBoard(store, rules, LIMIT, (before, after, t) -> {});
  private final SilenceMonitor monitor = new SilenceMonitor(register, rules, board, GRACE);

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
}
