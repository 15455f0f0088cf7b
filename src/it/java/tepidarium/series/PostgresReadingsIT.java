package tepidarium.series;

import static org.awaitility.Awaitility.await;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.SQLException;
import java.sql.Statement;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Map;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.atomic.AtomicBoolean;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.concurrent.locks.LockSupport;
import java.util.stream.IntStream;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import tepidarium.it.Postgres;
import tepidarium.postgres.PostgresAddress;
import tepidarium.postgres.PostgresPool;
import tepidarium.postgres.PostgresServer;
import tepidarium.reading.Quantity;
import tepidarium.reading.Reading;
import tepidarium.reading.Readings;
import tepidarium.reading.SensorId;
import tepidarium.reading.Span;
import tepidarium.series.postgres.PostgresReadings;

/** Runs the store contract, and tests specific to PostgreSQL, against a real PostgreSQL server. */
class PostgresReadingsIT extends SeriesContract<PostgresReadings> {
  private static final String DATABASE = "garden";
  private static final SensorId SENSOR = new SensorId("jar-3");
  private static final Span EVER =
      new Span(Reading.EARLIEST, Instant.parse("2040-01-01T00:00:00Z"));
  private static final Duration SOON = Duration.ofMinutes(1);
  private static final long PAUSE_NANOS = 5_000_000;
  private static final int BATCH = 2;

  /** Serialises the changes of the tables. */
  private static final long LOCK = 7_301_154_482L;

  private static final int ENOUGH = 300;
  private static Postgres server;
  private static PostgresAddress address;

  /** Faster than a database for each test. */
  PostgresReadingsIT() {
    server.run(DATABASE, "DROP SCHEMA IF EXISTS readings CASCADE");
  }

  /** Its own default would lose the last commits. */
  @BeforeAll
  static void start() {
    server = Postgres.started("synchronous_commit = off");
    server.create(DATABASE);
    address = server.readings(DATABASE);
  }

  @AfterAll
  static void stop() {
    server.close();
  }

  @Override
  PostgresReadings open() {
    return new PostgresReadings(address);
  }

  @Override
  void close(PostgresReadings opened) {
    opened.close();
  }

  private static Reading at(String instant, double temperature) {
    return Readings.ofAir(SENSOR, Instant.parse(instant), temperature, null, null, null);
  }

  private static List<String> months() {
    return server.ask(
        DATABASE,
        "SELECT relname FROM pg_class JOIN pg_inherits ON inhrelid = oid"
            + " WHERE inhparent = 'readings.reading'::regclass ORDER BY 1");
  }

  private static int count(PostgresReadings store) {
    Map<Quantity, ?> read = store.read(SENSOR, EVER);
    return read.isEmpty() ? 0 : store.read(SENSOR, EVER).get(Quantity.TEMPERATURE).size();
  }

  @Test
  void aMonthIsMadeWhenItIsNeededAlsoYearsBackAndForAShiftedReading() {
    PostgresReadings store = store();
    assertEquals(
        new WriteResult(2, 0),
        store.write(List.of(at("2026-03-31T23:59:59.999Z", 30), at("2012-02-29T12:00:00Z", 20))));
    assertEquals(new WriteResult(1, 0), store.write(List.of(at("2026-03-31T23:59:59.999Z", 31))));
    assertEquals(List.of("reading_2012_02", "reading_2026_03", "reading_2026_04"), months());
    assertEquals(3, count(store));
  }

  @Test
  void twoServicesMakeTheSameMonthsAtOnce() {
    List<Reading> batch =
        IntStream.range(0, 24)
            .mapToObj(i -> at("20%d-%02d-01T00:00:00Z".formatted(14 + i / 12, 1 + i % 12), i))
            .toList();
    List<Reading> backwards = new ArrayList<>(batch);
    Collections.reverse(backwards);
    CountDownLatch both = new CountDownLatch(2);
    try (PostgresReadings other = open()) {
      other.probe();
      CompletableFuture<WriteResult> theirs =
          CompletableFuture.supplyAsync(() -> writeTogether(both, other, backwards));
      WriteResult ours = writeTogether(both, store(), batch);
      assertEquals(new WriteResult(24, 24), ours.plus(theirs.join()));
    }
    assertEquals(24, months().size());
    assertEquals(24, count(store()));
  }

  private static WriteResult writeTogether(
      CountDownLatch both, PostgresReadings store, List<Reading> batch) {
    both.countDown();
    try {
      both.await();
    } catch (InterruptedException e) {
      throw new AssertionError(e);
    }
    return store.write(batch);
  }

  @Test
  void wholeMonthsAreDroppedAndMadeAgainForALateReading() {
    PostgresReadings store = store();
    List<Reading> batch =
        List.of(
            at("2026-01-31T23:59:59Z", 1),
            at("2026-02-01T00:00:00Z", 2),
            at("2026-02-15T00:00:00Z", 3));
    store.write(batch);
    assertEquals(1, store.deleteBefore(Instant.parse("2026-02-10T00:00:00Z"), 10));
    assertEquals(List.of("reading_2026_02"), months());
    assertEquals(1, count(store));
    assertEquals(new WriteResult(2, 1), store.write(batch));
    server.run(DATABASE, "DROP TABLE readings.reading_2026_01");
    assertEquals(new WriteResult(1, 2), store.write(batch));
    assertEquals(0, store.deleteBefore(Instant.parse("2026-03-01T00:00:00Z"), 10));
    assertEquals(List.of(), months());
  }

  /** A dump locks every table in the same way until its end. */
  @Test
  void aMonthThatAnotherProgramReadsIsEmptiedAndDroppedTheNextTime() throws SQLException {
    PostgresReadings store = store();
    store.write(List.of(at("2026-01-31T12:00:00Z", 1), at("2026-02-15T00:00:00Z", 3)));
    try (Connection dump = transaction();
        Statement statement = dump.createStatement()) {
      statement.execute("LOCK TABLE readings.reading IN ACCESS SHARE MODE");
      assertEquals(1, store.deleteBefore(Instant.parse("2026-02-10T00:00:00Z"), 10));
      assertEquals(1, count(store));
      assertEquals(List.of("reading_2026_01", "reading_2026_02"), months());
    }
    assertEquals(0, store.deleteBefore(Instant.parse("2026-02-10T01:00:00Z"), 10));
    assertEquals(List.of("reading_2026_02"), months());
  }

  private static Connection transaction() throws SQLException {
    Connection connection =
        DriverManager.getConnection(
            "jdbc:" + server.url(DATABASE), Postgres.USER, Postgres.PASSWORD);
    connection.setAutoCommit(false);
    return connection;
  }

  @Test
  void aStatementThatTheServerGivesUpIsNotRunAgain() {
    PostgresReadings store = store();
    store.write(List.of(warm(0, 30)));
    server.run(DATABASE, "CREATE SEQUENCE readings.tries");
    refuse("query_canceled");
    String words = words(store);
    assertTrue(words.contains("took too long for a statement"), words);
    assertTrue(words.contains("9500ms"), words);
    assertEquals(List.of("1"), server.ask(DATABASE, "SELECT last_value FROM readings.tries"));
    refuse("lock_not_available");
    assertTrue(words(store).contains("is locked, by another program or by an own change"));
  }

  /** Each write fails with the code and tells how long the server lets a statement run. */
  private static void refuse(String code) {
    server.run(
        DATABASE,
        "CREATE OR REPLACE FUNCTION readings.refuse() RETURNS trigger LANGUAGE plpgsql SECURITY"
            + " DEFINER AS 'BEGIN PERFORM nextval(''readings.tries''); RAISE EXCEPTION ''%'',"
            + " current_setting(''statement_timeout'') USING ERRCODE = ''"
            + code
            + "''; END'; CREATE OR REPLACE TRIGGER refuse BEFORE INSERT ON readings.reading"
            + " EXECUTE FUNCTION readings.refuse()");
  }

  @Test
  void whoFindsNoFreeConnectionFailsAfterTheLimitOfAnAnswer() {
    try (PostgresPool pool =
        new PostgresPool(
            new PostgresServer(address, 1), PostgresServer.reconnect(address), 1, unused -> {})) {
      StoreException busy =
          assertThrows(
              StoreException.class,
              () -> pool.change(taken -> pool.change(Connection::clearWarnings)));
      String words = String.valueOf(busy.getMessage());
      assertTrue(words.contains("does not answer (all connections were busy for 1 s)"), words);
      pool.change(Connection::clearWarnings);
    }
  }

  @Test
  void storedCompletedAndRepeatedReadingsOfABatchAreCounted() {
    PostgresReadings store = store();
    store.write(List.of(warm(0, 30), warm(60, 31)));
    Reading humid = Readings.ofAir(new SensorId("bag"), second(0), null, 96.0, null, null);
    Reading more = Readings.ofAir(new SensorId("bag"), second(60), 31.0, 95.0, null, null);
    assertEquals(
        new WriteResult(4, 3),
        store.write(
            List.of(warm(0, 30), humid, humid, more, warm(60, 31), warm(120, 32), warm(0, 29))));
  }

  @Test
  void theRowsOfAQueryComeFromTheKeyAlone() {
    store().write(IntStream.range(0, 2_000).mapToObj(i -> warm(i * 60L, i / 100.0)).toList());
    server.run(DATABASE, "VACUUM ANALYZE readings.reading");
    List<String> plan =
        server.ask(
            DATABASE,
            "EXPLAIN SELECT at_ms, temperature, humidity, light, battery, co2, mediumMoisture"
                + " FROM readings.reading WHERE sensor_id = 1 AND at_ms BETWEEN "
                + second(6_000).toEpochMilli()
                + " AND "
                + second(9_000).toEpochMilli()
                + " ORDER BY at_ms");
    assertTrue(plan.toString().contains("Index Only Scan"), plan::toString);
  }

  @Test
  void aColumnThatAnEarlierVersionDidNotKnowIsAdded() {
    server.run(
        DATABASE,
        "ALTER TABLE readings.reading DROP COLUMN co2; ALTER TABLE readings.reading"
            + " ADD PRIMARY KEY (sensor_id, at_ms) INCLUDE (temperature);"
            + " ALTER TABLE readings.uncertain_reading DROP COLUMN co2");
    try (PostgresReadings later = open()) {
      Reading air = new Reading(SENSOR, second(0), Map.of(Quantity.CARBON_DIOXIDE, 1e6), null);
      assertEquals(new WriteResult(1, 0), later.write(List.of(air)));
      assertEquals(1e6, later.read(SENSOR, EVER).get(Quantity.CARBON_DIOXIDE).value(0));
    }
  }

  @Test
  void aColumnIsAddedAfterTheChangesOfAnotherService() throws SQLException {
    store().probe();
    server.run(DATABASE, "ALTER TABLE readings.uncertain_reading DROP COLUMN co2");
    try (Connection other = transaction();
        Statement statement = other.createStatement();
        PostgresReadings later = open()) {
      statement.execute("SELECT pg_advisory_xact_lock(" + LOCK + ")");
      CompletableFuture<Void> adding = CompletableFuture.runAsync(later::probe);
      await()
          .atMost(SOON)
          .until(
              () ->
                  adding.isDone()
                      || !server
                          .ask(DATABASE, "SELECT 1 FROM pg_locks WHERE NOT granted")
                          .isEmpty());
      assertFalse(adding.isDone());
      other.rollback();
      adding.join();
    }
  }

  @Test
  void readingsOfALaterVersionAreLeftAlone() {
    server.run(DATABASE, "UPDATE readings.format SET version = version + 1");
    try (PostgresReadings later = open()) {
      assertTrue(words(later).contains("written by a later version of Tepidarium"));
    }
  }

  @Test
  void aWrongLoginOrDatabaseIsNamedWithItsSetting() {
    PostgresAddress wrong =
        PostgresAddress.of("readings", server.url(DATABASE), Postgres.USER, "gue55");
    try (PostgresReadings refused = new PostgresReadings(wrong)) {
      assertTrue(words(refused).contains("Check readingsUser and readingsPassword"));
    }
    try (PostgresReadings missing = new PostgresReadings(server.readings("nowhere"))) {
      assertTrue(words(missing).contains("Create it, or correct readingsUrl"));
    }
  }

  @Test
  void aDatabaseThatTakesNoChangesOrHasNoRoomIsNamedAndStoresNothing() {
    PostgresReadings store = store();
    List<Reading> batch = List.of(warm(0, 30));
    server.run(
        DATABASE,
        "CREATE FUNCTION readings.full() RETURNS trigger LANGUAGE plpgsql AS 'BEGIN RAISE"
            + " EXCEPTION ''could not extend file'' USING ERRCODE = ''disk_full''; END';"
            + " CREATE TRIGGER full_disk BEFORE INSERT ON readings.sensor"
            + " EXECUTE FUNCTION readings.full()");
    assertTrue(words(store).contains("because the disk of its server is full"));
    server.run(DATABASE, "DROP TRIGGER full_disk ON readings.sensor");
    server.run(DATABASE, "ALTER DATABASE garden SET default_transaction_read_only = on");
    try (PostgresReadings standby = open()) {
      assertTrue(words(standby).contains("takes no changes, because its server is a standby"));
    } finally {
      server.run("postgres", "ALTER DATABASE garden RESET default_transaction_read_only");
    }
    assertEquals(Map.of(), store.summaries());
    assertEquals(new WriteResult(1, 0), store.write(batch));
  }

  private static String words(PostgresReadings store) {
    return String.valueOf(
        assertThrows(StoreException.class, () -> store.write(List.of(warm(0, 30)))).getMessage());
  }

  /** Each batch is written until it is acknowledged, as the spool does. */
  @Test
  void everythingAcknowledgedOutlivesTheKillOfTheServerAndIsThereOnce() {
    PostgresReadings store = store();
    AtomicInteger acknowledged = new AtomicInteger();
    AtomicInteger failures = new AtomicInteger();
    AtomicBoolean enough = new AtomicBoolean();
    CompletableFuture<Void> writing =
        CompletableFuture.runAsync(
            () -> {
              while (!enough.get()) {
                List<Reading> batch = minutes(acknowledged.get());
                try {
                  WriteResult result = store.write(batch);
                  assertEquals(BATCH, result.stored() + result.repeated());
                  acknowledged.addAndGet(BATCH);
                } catch (StoreException e) {
                  failures.incrementAndGet();
                  LockSupport.parkNanos(PAUSE_NANOS);
                }
              }
            });
    try {
      await().atMost(SOON).until(() -> acknowledged.get() >= ENOUGH);
      server.kill();
      int before = acknowledged.get();
      server.start();
      await().atMost(SOON).until(() -> acknowledged.get() >= before + ENOUGH);
    } finally {
      enough.set(true);
    }
    writing.join();
    assertTrue(failures.get() > 0);
    assertEquals(acknowledged.get(), count(store));
    assertEquals(
        List.of(String.valueOf(acknowledged.get())),
        server.ask(DATABASE, "SELECT count(*) FROM readings.reading"));
  }

  private static List<Reading> minutes(int from) {
    return IntStream.range(from, from + BATCH)
        .mapToObj(i -> warm(SENSOR, i * 60L, i % 40))
        .toList();
  }
}
