package tepidarium.records;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.SQLException;
import java.sql.Statement;
import java.time.Clock;
import java.time.Instant;
import java.time.ZoneOffset;
import java.util.List;
import java.util.Map;
import java.util.function.Consumer;
import java.util.function.Function;
import java.util.stream.IntStream;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tepidarium.alert.Alert;
import tepidarium.alert.AlertKind;
import tepidarium.app.Config;
import tepidarium.container.Band;
import tepidarium.container.Calibration;
import tepidarium.container.Container;
import tepidarium.container.ContainerId;
import tepidarium.container.ContainerKind;
import tepidarium.container.ContainerSettings;
import tepidarium.container.Opening;
import tepidarium.container.Placement;
import tepidarium.ingest.Reject;
import tepidarium.ingest.RejectLog;
import tepidarium.it.Ports;
import tepidarium.it.RunningService;
import tepidarium.reading.SensorId;
import tepidarium.reading.Span;
import tepidarium.records.sqlite.SqliteRecords;
import tepidarium.series.StoreException;

/** The precious record in a real file; each step opens the file anew, as a restart does. */
class RecordsIT {
  private static final Instant START = Instant.parse("2026-03-01T06:00:00.123Z");
  private static final ContainerId BAG = new ContainerId("bag");
  private static final SensorId SENSOR = new SensorId("sensor-1");

  private final Path folder;

  RecordsIT(@TempDir Path folder) {
    this.folder = folder;
  }

  private Path file() {
    return folder.resolve("records.db");
  }

  private void change(Consumer<Database> change) {
    try (Database database = SqliteRecords.open(file())) {
      change.accept(database);
    }
  }

  private <T> T read(Function<Database, T> read) {
    try (Database database = SqliteRecords.open(file())) {
      return read.apply(database);
    }
  }

  private static Container bag(String name) {
    return bag(name, null, null);
  }

  private static Container bag(
      String name, @Nullable String heatSource, @Nullable Double ceilingC) {
    return new Container(
        BAG,
        new ContainerSettings(
            name, ContainerKind.BAG, heatSource, 10.5, ceilingC, new Band(29, 33.5, 2, 85)),
        START);
  }

  @Test
  void containersSurviveARestart() {
    Container plain = bag("Bag");
    change(database -> new ContainerRecords(database).put(plain));
    assertEquals(List.of(plain), read(database -> new ContainerRecords(database).containers()));

    Container full = bag("Großer Beutel 🌱", "heat mat", 38.0);
    change(database -> new ContainerRecords(database).put(full));
    assertEquals(List.of(full), read(database -> new ContainerRecords(database).containers()));
  }

  @Test
  void placementsSurviveARestartAndAreReplacedWhole() {
    Placement first = new Placement(SENSOR, BAG, START, START.plusSeconds(60));
    Placement second = new Placement(SENSOR, ContainerId.ROOM, START.plusSeconds(60), null);
    change(database -> new ContainerRecords(database).put(bag("Bag")));
    change(
        database ->
            new ContainerRecords(database).replacePlacements(SENSOR, List.of(first, second)));
    assertEquals(
        List.of(first, second), read(database -> new ContainerRecords(database).placements()));

    change(database -> new ContainerRecords(database).replacePlacements(SENSOR, List.of(second)));
    assertEquals(List.of(second), read(database -> new ContainerRecords(database).placements()));
  }

  @Test
  void calibrationsAndOpeningsSurviveARestart() {
    Calibration calibration = new Calibration(-0.35, 2.5, 0.2);
    Opening opening = new Opening(BAG, new Span(START, START.plusSeconds(600)));
    change(
        database -> {
          ContainerRecords records = new ContainerRecords(database);
          records.put(bag("Bag"));
          records.putCalibration(SENSOR, Calibration.NONE);
          records.putCalibration(SENSOR, calibration);
          records.addOpening(opening);
        });

    assertEquals(
        Map.of(SENSOR, calibration),
        read(database -> new ContainerRecords(database).calibrations()));
    assertEquals(List.of(opening), read(database -> new ContainerRecords(database).openings()));
    assertEquals(List.of(), read(database -> new ContainerRecords(database).declinedOpenings()));
  }

  @Test
  void declinedOpeningsSurviveARestart() {
    Opening declined = new Opening(BAG, new Span(START, START.plusSeconds(300)));
    change(
        database -> {
          new ContainerRecords(database).put(bag("Bag"));
          new ContainerRecords(database).addDeclinedOpening(declined);
          new ContainerRecords(database).addDeclinedOpening(declined);
        });
    assertEquals(
        List.of(declined), read(database -> new ContainerRecords(database).declinedOpenings()));
    assertEquals(List.of(), read(database -> new ContainerRecords(database).openings()));
    change(database -> new ContainerRecords(database).remove(BAG));
    assertEquals(List.of(), read(database -> new ContainerRecords(database).declinedOpenings()));
  }

  @Test
  void aRemovedContainerTakesWhatBelongsToItAlong() {
    change(
        database -> {
          ContainerRecords records = new ContainerRecords(database);
          records.put(bag("Bag"));
          records.replacePlacements(SENSOR, List.of(new Placement(SENSOR, BAG, START, null)));
          records.addOpening(new Opening(BAG, new Span(START, START.plusSeconds(600))));
          new AlertRecords(database).put(alert(1, null, null));
        });

    change(database -> new ContainerRecords(database).remove(BAG));

    assertEquals(List.of(), read(database -> new ContainerRecords(database).containers()));
    assertEquals(List.of(), read(database -> new ContainerRecords(database).placements()));
    assertEquals(List.of(), read(database -> new ContainerRecords(database).openings()));
    assertEquals(List.of(), read(database -> new AlertRecords(database).newest(10)));
  }

  private static Alert alert(
      long id, @Nullable Instant returnedAt, @Nullable Instant acknowledgedAt) {
    String by = acknowledgedAt == null ? null : "Ada";
    return new Alert(
        id,
        BAG,
        AlertKind.COLD,
        29.5,
        START,
        START.plusSeconds(600),
        returnedAt,
        acknowledgedAt,
        by,
        START.plusSeconds(900),
        28.25,
        27.5);
  }

  @Test
  void alertsSurviveARestartAndOpenOnesAreFound() {
    Instant later = START.plusSeconds(3_600);
    List<Alert> alerts =
        List.of(
            alert(1, later, later),
            alert(2, later, null),
            alert(3, null, later),
            alert(4, null, null));
    change(
        database -> {
          new ContainerRecords(database).put(bag("Bag"));
          alerts.forEach(new AlertRecords(database)::put);
        });

    assertEquals(alerts.subList(1, 4), read(database -> new AlertRecords(database).open()));
    assertEquals(
        List.of(alerts.get(3), alerts.get(2)),
        read(database -> new AlertRecords(database).newest(2)));
    Span hour = new Span(later, later.plusSeconds(3_600));
    assertEquals(alerts, read(database -> new AlertRecords(database).within(hour)));
    Span after = new Span(later.plusMillis(1), later.plusSeconds(3_600));
    assertEquals(alerts.subList(2, 4), read(database -> new AlertRecords(database).within(after)));
    Span before = new Span(START, START.plusSeconds(600));
    assertEquals(List.of(), read(database -> new AlertRecords(database).within(before)));
    long lastId = read(database -> new AlertRecords(database).lastId());
    assertEquals(4, lastId);
  }

  @Test
  void onlyTheNewestThousandRejectsAreKeptAndTheirNumbersGoOn() {
    List<Reject> rejects =
        IntStream.rangeClosed(1, 1_500)
            .mapToObj(i -> Reject.of(START.plusMillis(i), "tepidarium/x", "reason " + i, "{"))
            .toList();
    change(database -> new RejectRecords(database).add(rejects.subList(0, 700)));
    change(database -> new RejectRecords(database).add(rejects.subList(700, 1_500)));

    List<RejectLog.Line> lines = read(database -> new RejectRecords(database).newest(2_000));
    assertEquals(1_000, lines.size());
    assertEquals(new RejectLog.Line(1_500, rejects.get(1_499)), lines.get(0));
    assertEquals(new RejectLog.Line(501, rejects.get(500)), lines.get(999));

    change(database -> new RejectRecords(database).add(rejects.subList(0, 1)));
    assertEquals(1_501, read(database -> new RejectRecords(database).newest(1)).get(0).number());
  }

  @Test
  void aFailureUndoesTheWholeTransaction() {
    change(
        database -> {
          assertThrows(
              IllegalStateException.class,
              () ->
                  database.transaction(
                      handle -> {
                        handle.execute(
                            "INSERT INTO reject (at_ms, topic, reason, payload)"
                                + " VALUES (1, 'a', 'b', 'c')");
                        throw new IllegalStateException("as planned");
                      }));
          assertEquals(List.of(), new RejectRecords(database).newest(1));
        });
  }

  @Test
  void aFileThatWasLockedForLongIsUsedAgainOnceItIsFree() throws SQLException {
    try (Database database = SqliteRecords.open(file())) {
      ContainerRecords records = new ContainerRecords(database);
      try (Connection other = DriverManager.getConnection("jdbc:sqlite:" + file());
          Statement statement = other.createStatement()) {
        statement.execute("BEGIN EXCLUSIVE");
        assertThrows(StoreException.class, () -> records.put(bag("Bag")));
      }

      records.put(bag("Bag"));
      records.put(bag("Other bag"));
    }
    assertEquals(
        "Other bag", read(database -> new ContainerRecords(database).containers()).get(0).name());
  }

  @Test
  void theFileKnowsWhichVersionItsTablesHave() {
    String version =
        read(
            database ->
                database.transaction(
                    handle ->
                        handle
                            .createQuery(
                                "SELECT max(version) FROM flyway_schema_history WHERE success = 1")
                            .mapTo(String.class)
                            .one()));

    assertTrue(Integer.parseInt(version) >= 1, version);
  }

  @Test
  void aFolderInUseIsRefusedByName() {
    try (RunningService first = RunningService.embedded(folder)) {
      Config second = RunningService.config(folder, "embedded", Ports.free(), List.of());
      String message =
          String.valueOf(
              assertThrows(
                      IllegalStateException.class,
                      () -> RunningService.start(second, Clock.tickMillis(ZoneOffset.UTC)).close())
                  .getMessage());

      assertTrue(message.contains("another Tepidarium is using the data folder"), message);
      assertTrue(message.contains(folder.toString()), message);
      assertEquals(200, first.api().call("GET", "/api/health", null).status());
    }
  }
}
