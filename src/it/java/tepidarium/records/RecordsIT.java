package tepidarium.records;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNull;
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
import java.util.UUID;
import java.util.stream.IntStream;
import org.flywaydb.core.Flyway;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tepidarium.alert.AlertKey;
import tepidarium.alert.AlertKind;
import tepidarium.alert.Condition;
import tepidarium.alert.Priority;
import tepidarium.alert.Trend;
import tepidarium.app.Config;
import tepidarium.container.ContainerId;
import tepidarium.germination.Act;
import tepidarium.germination.CullReason;
import tepidarium.germination.Culled;
import tepidarium.germination.Entry;
import tepidarium.germination.GroupId;
import tepidarium.it.Ports;
import tepidarium.it.RunningService;
import tepidarium.records.sqlite.SqliteRecords;
import tepidarium.series.StoreException;

/** The records in an SQLite file: the contract, older files, locks and folders in use. */
class RecordsIT extends RecordsContract {
  private final Path folder;

  RecordsIT(@TempDir Path folder) {
    this.folder = folder;
  }

  private Path file() {
    return folder.resolve("records.db");
  }

  @Override
  Database open() {
    return SqliteRecords.open(file());
  }

  @Test
  void alertsOfAnOlderFileKeepTheirStateAndGetAHistory() throws SQLException {
    String url = oldFile("1");
    try (Connection old = DriverManager.getConnection(url);
        Statement statement = old.createStatement()) {
      statement.execute("INSERT INTO container VALUES ('bag','B','bag',null,15,null,29,34,1,80,0)");
      statement.execute(
          "INSERT INTO alert VALUES (3,'bag','cold',29,1000,2000,5000,null,null,null,30,20)");
      statement.execute(
          "INSERT INTO alert VALUES (7,'bag','light',1,1000,2000,null,3000,'Ada',null,9,99)");
    }

    Map<AlertKey, Condition> conditions = read(database -> new AlertRecords(database).conditions());
    Condition cold = new Condition(null, false, null, Instant.ofEpochMilli(5_000), Double.NaN);
    assertEquals(cold, conditions.get(KEY));
    assertTrue(conditions.get(new AlertKey(BAG, AlertKind.LIGHT)).active());
    assertEquals(
        List.of("raised", "returned"),
        read(database -> new AlertRecords(database).transitions(3)).stream()
            .map(one -> one.what().key())
            .toList());
    assertEquals("Ada", read(database -> new AlertRecords(database).transitions(7)).get(1).by());
    assertEquals(7, lastAlertId());
    assertNull(
        read(database -> new ContainerRecords(database).containers()).get(0).settings().room());
    assertEquals(
        Priority.HIGH, read(database -> new AlertRecords(database).alert(3)).get().priority());
  }

  @Test
  void trendsOfAnOlderFileAreTakenFromTheWordsOfItsAlerts() throws SQLException {
    String url = oldFile("22");
    try (Connection old = DriverManager.getConnection(url);
        Statement statement = old.createStatement()) {
      statement.execute(
          "INSERT INTO container (id, name, kind, base_c, temperature_low_c, temperature_high_c,"
              + " light_high_lux, humidity_low_percent, created_ms) VALUES ('bag','B','bag',15,29,34,1,80,0)");
      insertAlert(
          statement,
          3,
          "now -0.5 °C and changing by +1.2 °C an hour, towards about 24.0 °C; the time before");
      insertAlert(statement, 4, "probe: reports 30 °C without any change");
    }
    assertEquals(new Trend(-0.5, 1.2, 24), trendOf(3));
    assertNull(trendOf(4));
  }

  private static void insertAlert(Statement statement, int id, String detail) throws SQLException {
    statement.execute(
        "INSERT INTO alert (id, container_id, kind, limit_value, since_ms, raised_ms, latest_value,"
            + " worst_value, priority, detail, found_late) VALUES ("
            + id
            + ",'bag','headingHot',120,1000,2000,60,60,'medium','"
            + detail
            + "',0)");
  }

  private @Nullable Trend trendOf(long alert) {
    return read(database -> new AlertRecords(database).alert(alert)).orElseThrow().trend();
  }

  /** One entry of each kind, written with the columns of schema version 9. */
  @Test
  void journalEntriesOfAnOlderFileAreKept() throws SQLException {
    String url = oldFile("9");
    GroupId group = new GroupId(1, 1);
    List<String> ids =
        IntStream.rangeClosed(1, 6).mapToObj(i -> new UUID(0, i).toString()).toList();
    try (Connection old = DriverManager.getConnection(url);
        Statement statement = old.createStatement()) {
      statement.execute(
          "INSERT INTO seed_lot VALUES (1,'cacao',null,40,0,'ground',null,null,null)");
      insert(
          statement,
          ids.get(0),
          "kind, lot_id, name, groups_text",
          "'sown', 1, 'a \"first\"; one', '1-1 in bag: 25; 1-2 in jar-1: 15'");
      insert(
          statement,
          ids.get(1),
          "kind, seed_group, container_id, ungerminated, split_into",
          "'moved', '1-1', 'room-2', 3, '1-3'");
      insert(
          statement,
          ids.get(2),
          "kind, seed_group, germinated, culled, potted_on, root_lengths_cm",
          "'checked', '1-1', 3, '2 mould; 1 dead germinated', 1, '2.5; 0.4'");
      insert(
          statement,
          ids.get(3),
          "kind, seed_group, germinated, potted_on",
          "'checked', '1-1', 0, 0");
      insert(statement, ids.get(4), "kind, seed_group, alive", "'survival', '1-1', 4");
      insert(statement, ids.get(5), "kind, corrects", "'withdrawn', '%s'".formatted(ids.get(4)));
      statement.execute("INSERT INTO seed_photo VALUES ('" + ids.get(2) + "', x'ffd8ff07')");
    }

    List<Entry> entries = read(database -> new GerminationRecords(database).entries());

    assertEquals(ids, entries.stream().map(entry -> entry.id().toString()).toList());
    assertEquals(
        List.of(
            new Act.Sown(
                1,
                "a \"first\"; one",
                List.of(
                    new Act.Part(group, BAG, 25),
                    new Act.Part(new GroupId(1, 2), new ContainerId("jar-1"), 15))),
            new Act.Moved(group, new ContainerId("room-2"), 3, null, new GroupId(1, 3), null),
            new Act.Checked(
                group,
                3,
                List.of(
                    new Culled(2, CullReason.MOULD, false), new Culled(1, CullReason.DEAD, true)),
                1,
                List.of(2.5, 0.4)),
            new Act.Checked(group, 0, List.of(), 0, List.of()),
            new Act.Survival(group, 4),
            new Act.Withdrawn()),
        entries.stream().map(Entry::act).toList());
    Entry last = entries.get(5);
    assertEquals(ids.get(4), String.valueOf(last.corrects()));
    assertEquals(Instant.ofEpochMilli(1_000), last.at());
    assertEquals("Ida", last.by());
    assertEquals(
        List.of(entries.get(2).id()),
        read(database -> new GerminationRecords(database).photographed()));
    assertEquals(1, read(database -> new GerminationRecords(database).lots()).size());
  }

  private static void insert(Statement statement, String id, String columns, String values)
      throws SQLException {
    statement.execute(
        """
        INSERT INTO seed_entry (id, sowing, at_ms, recorded_ms, recorded_by, reason, %s)
        VALUES ('%s', 1, 1000, 2000, 'Ida', 'a reason', %s)
        """
            .formatted(columns, id, values));
  }

  private String oldFile(String version) {
    String url = "jdbc:sqlite:" + file();
    Flyway.configure()
        .dataSource(url, null, null)
        .locations("classpath:db/records")
        .target(version)
        .load()
        .migrate();
    return url;
  }

  @Test
  void aFileThatWasLockedForLongIsUsedAgainOnceItIsFree() throws SQLException {
    try (Database database = SqliteRecords.open(file())) {
      ContainerRecords records = new ContainerRecords(database);
      // In use it waits 10 s for the lock.
      database.transaction(handle -> handle.execute("PRAGMA busy_timeout = 100"));
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
      Config second = RunningService.config(folder, "embedded", Ports.free());
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
