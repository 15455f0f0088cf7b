package tepidarium.app;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.time.Instant;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tepidarium.reading.InvalidInput;
import tepidarium.reading.Quantity;
import tepidarium.reading.Reading;
import tepidarium.reading.SensorId;
import tepidarium.records.ClockRecords;
import tepidarium.records.Database;
import tepidarium.records.RecordsCopy;
import tepidarium.records.sqlite.SqliteRecords;
import tepidarium.series.StoreException;
import tepidarium.series.WriteResult;
import tepidarium.series.spool.Spool;
import tepidarium.series.sqlite.SqliteReadings;

/** An installation moved from one data folder to another, and what is refused. */
class MoveTest {
  private static final Reading READING =
      new Reading(
          new SensorId("bag"),
          Instant.parse("2026-03-01T06:00:00Z"),
          Map.of(Quantity.TEMPERATURE, 30.0),
          null);

  @TempDir private Path folder;
  private Path old;
  private Path fresh;
  private final StringWriter words = new StringWriter();

  @BeforeEach
  void fill() {
    old = folder.resolve("old");
    fresh = folder.resolve("fresh");
    try (SqliteReadings readings = SqliteReadings.open(old.resolve("readings.db"));
        Database records = SqliteRecords.open(old.resolve("records.db"))) {
      assertEquals(new WriteResult(1, 0), readings.write(List.of(READING)));
      new ClockRecords(records).store(READING.at());
    }
  }

  private static Config config(Path data, Map<String, ?> more) {
    Map<String, Object> settings = new HashMap<>(Map.of("data", data.toString()));
    settings.putAll(more);
    return Config.of(settings);
  }

  private int move(Config from, Config to) throws IOException {
    return new Move(from, to, Clock.systemUTC(), new PrintWriter(words)).run();
  }

  private int move() throws IOException {
    return move(config(old, Map.of()), config(fresh, Map.of()));
  }

  private String refused(Config from, Config to) {
    return String.valueOf(assertThrows(InvalidInput.class, () -> move(from, to)).getMessage());
  }

  private String refused() {
    return refused(config(old, Map.of()), config(fresh, Map.of()));
  }

  private void assertSaid(String part) {
    assertTrue(words.toString().contains(part), words.toString());
  }

  @Test
  void everythingIsInTheNewFolderAndInItsManifest() throws IOException {
    assertEquals(Move.COMPLETE, move());
    assertSaid("1 reading verified hour by hour, 1 of them stored now.");
    assertSaid("The move is complete. Start the service with --config");
    assertSaid("These stay in the folder");
    try (Database before = SqliteRecords.open(old.resolve("records.db"));
        Database after = SqliteRecords.open(fresh.resolve("records.db"))) {
      assertEquals(RecordsCopy.sums(before), RecordsCopy.sums(after));
      assertEquals(READING.at(), new ClockRecords(after).lastSeen().orElseThrow());
    }
    Manifest manifest = Objects.requireNonNull(Manifest.read(fresh));
    assertEquals(
        Map.of(
            "readings.db",
            SqliteReadings.SCHEMA.version(),
            "records.db",
            SqliteRecords.SCHEMA.version()),
        manifest.parts());
    assertEquals(Files.readString(old.resolve("client-id")), manifest.clientId());
    assertEquals(Move.COMPLETE, move());
    assertSaid("1 reading verified hour by hour, 0 of them stored now.");
  }

  @Test
  void besideARunningServiceOnlyReadingsAreCopied() throws IOException {
    DataFolder service = DataFolder.open(old);
    try {
      assertEquals(Move.AGAIN, move());
    } finally {
      service.close();
    }
    assertSaid("Stop the service and run the same command again");
    assertFalse(Files.exists(fresh.resolve("records.db")));
    assertEquals(Move.COMPLETE, move());
    assertSaid("1 reading verified hour by hour, 0 of them stored now.");
  }

  @Test
  void readingsThatDifferFailTheMoveAndLeaveTheRecords() throws IOException {
    try (SqliteReadings readings = SqliteReadings.open(fresh.resolve("readings.db"))) {
      readings.write(
          List.of(
              new Reading(
                  READING.sensor(), READING.at(), Map.of(Quantity.TEMPERATURE, 31.0), null)));
    }
    assertEquals(Move.FAILED, move());
    assertSaid("1 hour differently stored, although copied twice");
    assertSaid("  bag, 2026-03-01T06:00:00Z");
    try (Database records = SqliteRecords.open(fresh.resolve("records.db"))) {
      assertTrue(new ClockRecords(records).lastSeen().isEmpty());
    }
  }

  @Test
  void aTargetWithReadingsOfOtherSensorsIsRefused() {
    try (SqliteReadings readings = SqliteReadings.open(fresh.resolve("readings.db"))) {
      readings.write(
          List.of(new Reading(new SensorId("other"), READING.at(), READING.values(), null)));
    }
    String refusal = refused();
    assertTrue(refusal.contains("has readings of other sensors: other"), refusal);
  }

  @Test
  void aTargetWithOtherRecordsIsRefusedAndUnchanged() {
    Instant other = READING.at().plusSeconds(1);
    try (Database records = SqliteRecords.open(fresh.resolve("records.db"))) {
      new ClockRecords(records).store(other);
    }
    String refusal = refused();
    assertTrue(refusal.contains("has other records already, in clock_seen."), refusal);
    try (Database records = SqliteRecords.open(fresh.resolve("records.db"))) {
      assertEquals(other, new ClockRecords(records).lastSeen().orElseThrow());
    }
  }

  @Test
  void readingsInTheSpoolAreRefused() {
    Spool.Backend away =
        new Spool.Backend() {
          @Override
          public void probe() {
            throw new StoreException("away", new IOException());
          }

          @Override
          public WriteResult write(List<Reading> batch) {
            throw new StoreException("away", new IOException());
          }
        };
    try (Spool spool = Spool.open(away, old.resolve("spool.db"), 1 << 20, Clock.systemUTC())) {
      assertEquals(WriteResult.queued(1), spool.write(List.of(READING)));
    }
    String refusal = refused();
    assertTrue(refusal.startsWith("1 reading in "), refusal);
    assertTrue(refusal.contains("until the page Service shows that none waits"), refusal);
  }

  @Test
  void theSameStoresAreRefused() {
    String refusal = refused(config(old, Map.of()), config(old.resolve("../old"), Map.of()));
    assertTrue(refusal.contains("nothing is to be moved"), refusal);
  }

  @Test
  void aFolderWithoutDataIsRefusedAndNotMade() {
    String refusal = refused(config(folder.resolve("typo"), Map.of()), config(fresh, Map.of()));
    assertTrue(refusal.contains("there is no data in the folder"), refusal);
    assertFalse(Files.exists(folder.resolve("typo")));
  }

  @Test
  void sumsOfDeletedReadingsWouldBeLostInAnotherFolder() {
    String refusal = refused(config(old, Map.of("keepRawDays", 30)), config(fresh, Map.of()));
    assertTrue(refusal.contains("ledger.db has their hourly sums"), refusal);
  }

  @Test
  void sumsOfOtherDataAreRefused() throws IOException {
    Files.createDirectories(fresh);
    Files.createFile(fresh.resolve("ledger.db"));
    String refusal = refused();
    assertTrue(refusal.contains("has hourly sums of other data"), refusal);
  }

  @Test
  void theNewSettingsKeepTheFolderAndTakeNoStoresFromTheEnvironment() throws IOException {
    Path file = folder.resolve("new.yaml");
    Files.writeString(file, "recordsUrl: postgresql://h/records\n");
    Map<String, String> environment =
        Map.of("TEPIDARIUM_READINGS_URL", "postgresql://h/readings", "TEPIDARIUM_HTTP_PORT", "81");
    Config config = MoveCommand.target(file, environment, old);
    assertEquals(old, config.data());
    assertNull(config.keeping().readings());
    assertEquals(81, config.httpPort());
    Files.writeString(file, "data: " + fresh + "\n");
    assertEquals(fresh, MoveCommand.target(file, environment, old).data());
  }
}
