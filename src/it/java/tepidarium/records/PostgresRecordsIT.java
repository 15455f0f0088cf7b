package tepidarium.records;

import static org.awaitility.Awaitility.await;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Path;
import java.time.Clock;
import java.time.Instant;
import java.util.List;
import java.util.Map;
import java.util.concurrent.atomic.AtomicInteger;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tepidarium.ingest.Reject;
import tepidarium.ingest.RejectCode;
import tepidarium.it.Ports;
import tepidarium.it.Postgres;
import tepidarium.postgres.PostgresAddress;
import tepidarium.reading.Reading;
import tepidarium.reading.Readings;
import tepidarium.reading.SensorId;
import tepidarium.records.postgres.PostgresRecords;
import tepidarium.records.postgres.Tenancy;
import tepidarium.records.sqlite.SqliteRecords;
import tepidarium.series.StoreException;
import tepidarium.series.postgres.PostgresReadings;

/** The records in a PostgreSQL database: the contract, the schema, and what is refused. */
class PostgresRecordsIT extends RecordsContract {
  /** A database with tables and without records; a copy of it is faster than a migration. */
  private static final String MIGRATED = "migrated";

  private static final Tenancy ALONE = Tenancy.alone("test");
  private static final AtomicInteger DATABASES = new AtomicInteger();
  private static Postgres server;

  private final String database = "garden" + DATABASES.incrementAndGet();
  private final PostgresAddress address = server.create(database, MIGRATED);

  @BeforeAll
  static void start() {
    server = Postgres.started();
    PostgresRecords.open(server.create(MIGRATED), ALONE).close();
  }

  @AfterAll
  static void stop() {
    server.close();
  }

  @Override
  Database open() {
    return PostgresRecords.open(address, ALONE);
  }

  /** A script in one of the two folders needs its counterpart in the other. */
  @Test
  void itHasTheTablesAndColumnsOfTheFile(@TempDir Path folder) {
    List<String> columns =
        server.ask(
            database,
            "SELECT table_name || '.' || column_name || CASE is_nullable WHEN 'NO' THEN '!' ELSE ''"
                + " END FROM information_schema.columns WHERE table_schema = 'public'"
                + " AND table_name NOT IN ('flyway_schema_history', 'lease', 'ownership',"
                + " 'waiting_service') ORDER BY 1");
    String ofTheFile =
        "SELECT t.name || '.' || c.name || CASE WHEN c.\"notnull\" OR c.pk THEN '!' ELSE '' END"
            + " FROM sqlite_master t JOIN pragma_table_info(t.name) c WHERE t.type = 'table'"
            + " AND t.name NOT LIKE 'sqlite%' AND t.name <> 'flyway_schema_history' ORDER BY 1";
    try (Database file = SqliteRecords.open(folder.resolve("records.db"))) {
      List<String> expected =
          file.transaction(handle -> handle.createQuery(ofTheFile).mapTo(String.class).list());
      assertEquals(String.join("\n", expected), String.join("\n", columns));
    }
  }

  /** A table that is not copied would be lost when an installation moves. */
  @Test
  void everyTableButThoseOfTheLeaseIsCopied() {
    List<String> tables =
        server.ask(
            database,
            "SELECT table_name FROM information_schema.tables WHERE table_schema = 'public'"
                + " AND table_name NOT IN ('flyway_schema_history', 'lease', 'ownership',"
                + " 'waiting_service') ORDER BY 1");
    assertEquals(tables, RecordsCopy.tables().stream().sorted().toList());
  }

  private static final List<String> ROWS =
      List.of(
          "INSERT INTO container VALUES ('bag','B','bag',NULL,15,NULL,29,34,1,80,0,'shed')",
          "INSERT INTO alert_condition (container_id,kind,active,worst_value) VALUES"
              + " ('bag','cold',1,28.3), ('bag','hot',0,NULL)",
          "INSERT INTO seed_lot (id,species_id,seeds,gathered_ms,origin) VALUES (7,'cacao',9,1,'x')",
          "INSERT INTO seed_entry (number,id,sowing,at_ms,recorded_ms,lot_id) VALUES (3,'a',1,1,1,7)",
          "INSERT INTO seed_entry (number,id,sowing,at_ms,recorded_ms,corrects) VALUES"
              + " (5,'b',1,1,1,'a'), (9,'c',1,1,1,NULL)",
          "DELETE FROM seed_entry WHERE number = 9",
          "INSERT INTO seed_photo VALUES ('a', x'00ff10')",
          "UPDATE species_figure SET figure = 15.25 WHERE trait = 'base' AND species_id = 'cacao'",
          "INSERT INTO reject (at_ms,topic,reason,payload) VALUES (1,'t','r',char(97,0,98))");

  @Test
  void theRecordsMoveThereAndBackWithTheirKeysAndNumbers(@TempDir Path folder) {
    try (Database file = SqliteRecords.open(folder.resolve("records.db"));
        Database postgres = open();
        Database back = SqliteRecords.open(folder.resolve("back.db"))) {
      assertEquals(RecordsCopy.sums(file), RecordsCopy.sums(postgres), "both begin with the same");
      ROWS.forEach(sql -> execute(file, sql));
      Map<String, RowSum> before = RecordsCopy.sums(file);
      assertEquals(
          before.values().stream().mapToLong(RowSum::rows).sum(), RecordsCopy.copy(file, postgres));
      assertEquals(before, RecordsCopy.sums(postgres));
      RecordsCopy.copy(postgres, back);
      assertEquals(before, RecordsCopy.sums(back));
      for (Database moved : List.of(postgres, back)) {
        execute(moved, "INSERT INTO seed_entry (id,sowing,at_ms,recorded_ms) VALUES ('d',1,1,1)");
        assertEquals(
            List.of("3", "5", "10"),
            moved.<List<String>>transaction(
                handle ->
                    handle
                        .createQuery("SELECT number FROM seed_entry ORDER BY number")
                        .mapTo(String.class)
                        .list()));
      }
      assertEquals(
          List.of("seed_entry"), RecordsCopy.different(before, RecordsCopy.sums(postgres)));
    }
  }

  /** Two sites in one database: both work at once, and neither sees what the other has. */
  @Test
  void eachSchemaHasRecordsReadingsAndALeaseOfItsOwn(@TempDir Path folder) {
    server.create("sites");
    String url = server.url("sites");
    List<Reading> readings =
        List.of(Readings.ofAir(new SensorId("jar-1"), Reading.EARLIEST, 30.0, null, null, null));
    try (Database north = PostgresRecords.open(site(url, "north"), ALONE);
        Database south = PostgresRecords.open(site(url, "south"), ALONE);
        Database copy = SqliteRecords.open(folder.resolve("copy.db"));
        PostgresReadings northern = new PostgresReadings(site(url, "north"));
        PostgresReadings southern = new PostgresReadings(site(url, "south"))) {
      ROWS.forEach(sql -> execute(copy, sql));
      RecordsCopy.copy(copy, north);
      assertEquals(List.of("1"), server.ask("sites", "SELECT count(*) FROM north.container"));
      assertEquals(List.of("0"), server.ask("sites", "SELECT count(*) FROM south.container"));
      put(south, "Other");
      assertEquals(List.of("Other"), server.ask("sites", "SELECT name FROM south.container"));
      assertEquals(1, northern.write(readings).stored());
      assertEquals(Map.of(), southern.summaries());
      assertEquals(1, southern.write(readings).stored());
    }
    assertEquals(
        List.of("north", "north_readings", "south", "south_readings"),
        server.ask(
            "sites",
            "SELECT nspname FROM pg_namespace WHERE nspname ~ '^(north|south|readings)' ORDER BY"
                + " 1"));
    assertEquals(
        List.of("0"),
        server.ask(
            "sites", "SELECT count(*) FROM pg_class WHERE relnamespace = 'public'::regnamespace"));
  }

  private static PostgresAddress site(String url, String schema) {
    return PostgresAddress.of(
        "records", url + "?currentSchema=" + schema, Postgres.USER, Postgres.PASSWORD);
  }

  private static void put(Database records, String name) {
    new ContainerRecords(records).put(RecordsContract.bag(name));
  }

  private static void execute(Database database, String sql) {
    int unusedRows = database.transaction(handle -> handle.execute(sql));
  }

  /** The target takes none of the rows if it gives one back otherwise. */
  @Test
  void aRowThatIsNotStoredAsItIsUndoesTheCopy(@TempDir Path folder) {
    try (Database file = SqliteRecords.open(folder.resolve("records.db"));
        Database postgres = open()) {
      Map<String, RowSum> empty = RecordsCopy.sums(postgres);
      ROWS.forEach(sql -> execute(file, sql));
      server.run(database, "ALTER TABLE container ALTER base_c TYPE real");
      execute(file, "UPDATE container SET base_c = 15.1");
      String words =
          String.valueOf(
              assertThrows(IllegalStateException.class, () -> RecordsCopy.copy(file, postgres))
                  .getMessage());
      assertTrue(words.contains("these tables: container."), words);
      assertEquals(empty, RecordsCopy.sums(postgres));
    }
  }

  @Test
  void aNullCharacterInAPayloadIsReplaced() {
    Reject reject = Reject.of(Instant.EPOCH, "tepidarium/x", RejectCode.JSON, "why", "a\0b");
    change(records -> new RejectRecords(records).add(List.of(reject)));
    assertEquals(
        "a\uFFFDb",
        read(records -> new RejectRecords(records).newest(1)).get(0).reject().payload());
  }

  @Test
  void aWrongPasswordEndsTheStartAndIsNotShown() {
    String words =
        refused(PostgresAddress.of("records", server.url(database), Postgres.USER, "h1dden"));
    assertTrue(words.contains("refuses the login. Check recordsUser and recordsPassword"), words);
    assertTrue(!words.contains("h1dden"), words);
  }

  /** The other server may be the leader, which knows the user. */
  @Test
  void aLoginRefusedByOneServerDoesNotEndTheStartWhileAnotherIsAway() {
    String servers = "127.0.0.1:" + server.port() + ",127.0.0.1:" + Ports.free();
    PostgresAddress address =
        PostgresAddress.of(
            "records", "postgresql://" + servers + '/' + database, "ida", Postgres.PASSWORD);
    String createUser =
        "CREATE USER ida PASSWORD '" + Postgres.PASSWORD + "' IN ROLE " + Postgres.USER;
    Tenancy waits =
        new Tenancy(
            "test",
            "test",
            false,
            () -> true,
            waiting -> server.run(database, createUser),
            Clock.systemUTC(),
            reason -> {});
    PostgresRecords.open(address, waits).close();
  }

  @Test
  void anUnknownDatabaseEndsTheStart() {
    String words = refused(server.address("nowhere"));
    assertTrue(words.contains("nowhere at 127.0.0.1:"), words);
    assertTrue(words.contains("does not exist. Create it, or correct recordsUrl"), words);
  }

  @Test
  void aDatabaseOfALaterVersionEndsTheStart() {
    server.run(
        database,
        "INSERT INTO flyway_schema_history (installed_rank, version, description, type, script,"
            + " installed_by, execution_time, success) VALUES (99, '999', 'later', 'SQL', 'x', 'y',"
            + " 1, true)");
    String words = refused(address);
    assertTrue(words.contains("written by a later version of Tepidarium"), words);
    assertTrue(words.contains("schema version 999"), words);
  }

  @Test
  void aDatabaseWithForeignTablesIsLeftAlone() {
    PostgresAddress other = server.create("other");
    server.run("other", "CREATE TABLE foreign_table (id INT)");
    String words = refused(other);
    assertTrue(words.contains("It is unchanged. Name an empty database"), words);
    assertEquals(
        List.of("foreign_table"),
        server.ask(
            "other", "SELECT relname FROM pg_class WHERE relnamespace = 'public'::regnamespace"));
  }

  private static String refused(PostgresAddress address) {
    return String.valueOf(
        assertThrows(
                IllegalStateException.class, () -> PostgresRecords.open(address, ALONE).close())
            .getMessage());
  }

  @Test
  void aReadOnlyServerIsNamedAndUsedAgainOnceItTakesChanges() {
    try (Database records = open()) {
      ContainerRecords containers = new ContainerRecords(records);
      containers.put(bag("Bag"));
      server.run(
          database, "ALTER DATABASE " + database + " SET default_transaction_read_only = on");
      disconnectAll();
      String words =
          String.valueOf(
              assertThrows(StoreException.class, () -> containers.put(bag("Other"))).getMessage());
      assertTrue(words.contains("takes no changes, because its server is a standby"), words);

      server.run("postgres", "ALTER DATABASE " + database + " RESET default_transaction_read_only");
      await()
          .ignoreException(StoreException.class)
          .untilAsserted(() -> containers.put(bag("Other")));
      assertEquals("Other", containers.containers().get(0).name());
    }
  }

  /** A connection that the server has ended between two transactions is nobody's trouble. */
  @Test
  void anEndedConnectionIsOpenedAgainUnnoticed() {
    try (Database records = open()) {
      ContainerRecords containers = new ContainerRecords(records);
      containers.put(bag("Bag"));
      disconnectAll();
      containers.put(bag("Other"));
      assertEquals("Other", containers.containers().get(0).name());
    }
  }

  private void disconnectAll() {
    server.ask(
        "postgres",
        "SELECT pg_terminate_backend(pid, 5000) FROM pg_stat_activity WHERE datname = '"
            + database
            + "'");
  }

  @Test
  void everySessionWaitsForTheDisk() {
    server.run(database, "ALTER DATABASE " + database + " SET synchronous_commit = off");
    try (Database records = open()) {
      assertEquals(
          "on",
          records.<String>transaction(
              handle -> handle.createQuery("SHOW synchronous_commit").mapTo(String.class).one()));
    }
  }
}
