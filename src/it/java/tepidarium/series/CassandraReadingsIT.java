package tepidarium.series;

import static org.awaitility.Awaitility.await;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.datastax.oss.driver.api.core.CqlSession;
import com.datastax.oss.driver.api.core.cql.Row;
import java.nio.file.Path;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.time.ZoneOffset;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.atomic.AtomicReference;
import java.util.stream.IntStream;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import tepidarium.it.Cassandra;
import tepidarium.it.Grower;
import tepidarium.it.MovableClock;
import tepidarium.it.Ports;
import tepidarium.it.Publisher;
import tepidarium.it.RunningService;
import tepidarium.moving.ReadingMove;
import tepidarium.reading.Arrival;
import tepidarium.reading.Quantity;
import tepidarium.reading.Reading;
import tepidarium.reading.Readings;
import tepidarium.reading.SensorId;
import tepidarium.reading.Span;
import tepidarium.series.cassandra.CassandraAddress;
import tepidarium.series.cassandra.CassandraReadings;
import tepidarium.series.sqlite.SqliteReadings;

/**
 * Runs the store contract, and tests specific to Cassandra, against a real Cassandra node. All are
 * in this class, because a node takes long to start.
 */
class CassandraReadingsIT extends SeriesContract<CassandraReadings> {
  private static final String KEYSPACE = "garden";
  private static final SensorId SENSOR = new SensorId("bag");
  private static final SensorId BAG_2 = new SensorId("bag-2");
  private static final Span EVER =
      new Span(Reading.EARLIEST, Instant.parse("2040-01-01T00:00:00Z"));
  private static final Duration SOON = Duration.ofMinutes(1);
  private static Cassandra server;
  private static CqlSession administrator;
  private static CassandraAddress address;

  /** Faster than a keyspace for each test. */
  CassandraReadingsIT() {
    for (Row table :
        administrator.execute(
            "SELECT table_name FROM system_schema.tables WHERE keyspace_name = 'garden'")) {
      String name = KEYSPACE + '.' + table.getString(0);
      if (administrator.execute("SELECT * FROM " + name + " LIMIT 1").one() != null) {
        administrator.execute("TRUNCATE " + name);
      }
    }
  }

  @BeforeAll
  static void start() {
    server = Cassandra.started(List.of("periodic"));
    administrator = server.administrator();
    address = server.address(KEYSPACE);
  }

  @AfterAll
  static void stop() {
    administrator.close();
    server.close();
  }

  @Override
  CassandraReadings open() {
    return new CassandraReadings(address, Clock.systemUTC());
  }

  @Override
  void close(CassandraReadings opened) {
    opened.close();
  }

  private Map<Instant, Double> temperatures() {
    return temperatures(SENSOR, EVER);
  }

  private static Reading at(String instant, double temperature) {
    return Readings.ofAir(SENSOR, Instant.parse(instant), temperature, null, null, null);
  }

  @Test
  void storedCompletedAndRepeatedReadingsOfABatchAreCounted() {
    CassandraReadings store = store();
    store.write(List.of(warm(0, 30), warm(60, 31)));
    Reading humid = Readings.ofAir(SENSOR, second(0), null, 96.0, null, null);
    Reading more = Readings.ofAir(SENSOR, second(60), 31.0, 95.0, null, null);
    List<Reading> batch =
        List.of(warm(0, 30), humid, humid, more, warm(60, 31), warm(120, 32), warm(0, 29));
    assertEquals(new WriteResult(4, 3), store.write(batch));
    try (CassandraReadings other = open()) {
      assertEquals(new WriteResult(0, 7), other.write(batch));
    }
  }

  @Test
  void theNodeIsReachedOverTlsByWhoKnowsItsAuthority() {
    String url = server.url(KEYSPACE) + "?sslmode=verify-full";
    try (CassandraReadings known = over(url + "&sslrootcert=" + server.authority());
        CassandraReadings unknown = over(url)) {
      known.write(List.of(warm(0, 30)));
      assertEquals(Map.of(second(0), 30.0), temperatures());
      assertThrows(StoreException.class, unknown::probe);
    }
  }

  private static CassandraReadings over(String url) {
    return new CassandraReadings(
        CassandraAddress.of(url, Cassandra.USER, Cassandra.PASSWORD), Clock.systemUTC());
  }

  @Test
  void theFirstValueStaysWhereTwoServicesWriteAtOnce() {
    CassandraReadings store = store();
    store.write(List.of(warm(0, 30)));
    Map<Instant, Double> expected = new HashMap<>(Map.of(second(0), 30.0));
    try (CassandraReadings other = open()) {
      other.write(List.of(warm(60, 31)));
      // It does not know of this one yet.
      store.write(List.of(Readings.ofAir(SENSOR, second(60), null, 96.0, 0.0, null)));
      expected.put(second(60), 31.0);
      // Many of these fall into the same millisecond.
      for (int second = 61; second < 361; second++) {
        other.write(List.of(warm(second, 32)));
        store.write(List.of(warm(second, 44)));
        expected.put(second(second), 32.0);
      }
    }
    assertEquals(expected, temperatures());
    assertEquals(96.0, store.read(SENSOR, EVER).get(Quantity.HUMIDITY).value(0));
  }

  @Test
  void wholeDaysAreDroppedAndTakeLateReadingsAgain() {
    CassandraReadings store = store();
    List<Reading> batch =
        List.of(
            at("2026-01-30T12:00:00Z", 1),
            at("2026-01-31T23:59:59.999Z", 2),
            at("2026-02-01T00:00:00Z", 3),
            at("2026-02-01T15:00:00Z", 4));
    Reading waited =
        new Reading(
            SENSOR,
            Instant.parse("2026-01-30T12:00:00Z"),
            Map.of(Quantity.HUMIDITY, 96.0),
            new Arrival(3, false, true));
    store.write(batch);
    store.write(List.of(waited));
    assertEquals(Optional.of(batch.get(0).at()), store.oldest());
    Instant noon = Instant.parse("2026-02-01T12:00:00Z");
    for (int round = 0; round < 2; round++) {
      assertEquals(0, store.deleteBefore(noon, 10));
      assertEquals(Map.of(batch.get(3).at(), 4.0), temperatures());
      assertEquals(Map.of(), store.uncertain());
      assertEquals(Optional.of(batch.get(3).at()), store.oldest());
      try (CassandraReadings later = open()) {
        assertEquals(batch.get(3).at(), later.summaries().get(SENSOR).first());
        assertEquals(new WriteResult(3, 1), later.write(batch));
        assertEquals(new WriteResult(1, 0), later.write(List.of(waited)));
        assertEquals(4, temperatures().size());
        assertEquals(1, later.uncertain().get(SENSOR).count());
      }
      restart();
      store = store();
    }
    store.deleteBefore(Instant.parse("2027-01-01T00:00:00Z"), 10);
    assertEquals(Map.of(), store.summaries());
    assertEquals(Optional.empty(), store.oldest());
  }

  @ParameterizedTest
  @CsvSource({
    "reading, sensor_group, true",
    "uncertain_reading, sensor_group, false",
    "uncertain_reading, sensor_group, true",
    "uncertain_day, day, false",
  })
  void aDeletionThatFailsHalfWayIsDoneAgain(String table, String column, boolean restarted) {
    CassandraReadings store = store();
    Reading old = at("2026-01-29T12:00:00Z", 1);
    Reading kept =
        Readings.ofAir(BAG_2, Instant.parse("2026-02-01T15:00:00Z"), 4.0, null, null, null);
    Map<Quantity, Double> humid = Map.of(Quantity.HUMIDITY, 96.0);
    store.write(List.of(old, at("2026-01-30T12:00:00Z", 2), kept));
    store.write(List.of(new Reading(SENSOR, old.at(), humid, new Arrival(3, false, true))));
    Instant noon = Instant.parse("2026-02-01T12:00:00Z");
    rename(table, column, "other");
    try {
      assertThrows(StoreException.class, () -> store.deleteBefore(noon, 10));
    } finally {
      rename(table, "other", column);
    }
    if (restarted) {
      restart();
    }
    // On the second day, so that it does not record the first one as stored again.
    Reading late = at("2026-01-30T18:00:00Z", 3);
    assertEquals(new WriteResult(1, 0), store().write(List.of(late)));
    assertEquals(3.0, temperatures().get(late.at()));

    store().deleteBefore(noon, 10);

    assertEquals(1, rows("reading"));
    assertEquals(0, rows("uncertain_reading"));
    assertEquals(Optional.of(kept.at()), store().oldest());
    assertEquals(new WriteResult(1, 0), store().write(List.of(old)));
    assertEquals(Map.of(old.at(), 1.0), temperatures());
  }

  /** While a column of its key has another name, statements on a table fail. */
  private static void rename(String table, String column, String name) {
    administrator.execute("ALTER TABLE garden." + table + " RENAME " + column + " TO " + name);
  }

  private static int rows(String table) {
    return administrator.execute("SELECT at FROM garden." + table).all().size();
  }

  @Test
  void theOldestReadingIsFoundAfterADayOfWhichNothingIsLeft() {
    CassandraReadings store = store();
    store.write(
        List.of(
            at("2026-02-01T05:00:00Z", 1),
            at("2026-02-03T05:00:00Z", 2),
            Readings.ofAir(BAG_2, Instant.parse("2026-02-05T05:00:00Z"), 3.0, null, null, null)));
    store.deleteBefore(Instant.parse("2026-02-01T06:00:00Z"), 10);
    assertEquals(Optional.of(Instant.parse("2026-02-03T05:00:00Z")), store.oldest());
  }

  @Test
  void aSummaryReachesBackOverDays() {
    CassandraReadings store = store();
    store.write(
        List.of(
            Readings.ofAir(SENSOR, Instant.parse("2026-02-01T12:00:00Z"), null, 95.0, null, 3.9),
            Readings.ofAir(SENSOR, Instant.parse("2026-02-04T12:00:00Z"), null, 96.0, null, null),
            at("2026-02-07T00:00:00Z", 30)));
    SensorSummary summary = store.summaries().get(SENSOR);
    assertEquals(Instant.parse("2026-02-01T12:00:00Z"), summary.first());
    assertEquals(Instant.parse("2026-02-07T00:00:00Z"), summary.last());
    assertEquals(96.0, summary.latest().get(Quantity.HUMIDITY).value());
    assertEquals(3.9, summary.latest().get(Quantity.BATTERY).value());
  }

  @Test
  void aColumnThatAnEarlierVersionDidNotKnowIsAdded() {
    store().probe();
    administrator.execute("ALTER TABLE garden.reading DROP co2");
    administrator.execute("ALTER TABLE garden.uncertain_reading DROP co2");
    try (CassandraReadings later = open()) {
      Reading air = new Reading(SENSOR, second(0), Map.of(Quantity.CARBON_DIOXIDE, 1e6), null);
      assertEquals(new WriteResult(1, 0), later.write(List.of(air)));
      assertEquals(1e6, later.read(SENSOR, EVER).get(Quantity.CARBON_DIOXIDE).value(0));
    }
  }

  @Test
  void readingsOfALaterVersionAreLeftAlone() {
    administrator.execute("UPDATE garden.format SET version = 99 WHERE id = 0");
    try (CassandraReadings later = open()) {
      assertTrue(words(later).contains("written by a later version of Tepidarium"));
    } finally {
      administrator.execute("TRUNCATE garden.format");
    }
  }

  @Test
  void aWrongLoginDataCentreOrRightIsNamedWithItsSetting() {
    String url = server.url(KEYSPACE);
    assertWords(
        CassandraAddress.of(url, "ida", "gue55"), "Check readingsUser and readingsPassword");
    assertWords(
        CassandraAddress.of(url + "?dc=attic", Cassandra.USER, Cassandra.PASSWORD),
        "has no data centre attic, but datacenter1. Correct dc in readingsUrl");
    administrator.execute("CREATE ROLE IF NOT EXISTS ida WITH PASSWORD = 'p' AND LOGIN = true");
    assertWords(
        CassandraAddress.of(server.url("orchard"), "ida", "p"),
        "refuses a right. Grant readingsUser all permissions on the keyspace, which must exist");
    administrator.execute("GRANT ALL PERMISSIONS ON KEYSPACE garden TO ida");
    try (CassandraReadings granted =
        new CassandraReadings(CassandraAddress.of(url, "ida", "p"), Clock.systemUTC())) {
      assertEquals(new WriteResult(1, 0), granted.write(List.of(warm(0, 30))));
    }
  }

  /** A node that told nothing at the connect tells it later. */
  @Test
  void theWarningAboutTheCommitLogIsRenewedWhileConnected() {
    administrator.execute("CREATE ROLE IF NOT EXISTS ada WITH PASSWORD = 'p' AND LOGIN = true");
    administrator.execute("GRANT ALL PERMISSIONS ON KEYSPACE garden TO ada");
    store().probe();
    MovableClock clock = new MovableClock(Instant.parse("2026-03-01T12:00:00Z"));
    try (CassandraReadings asked =
        new CassandraReadings(CassandraAddress.of(server.url(KEYSPACE), "ada", "p"), clock)) {
      asked.probe();
      assertEquals("", asked.durabilityWarning());
      administrator.execute("GRANT SELECT ON KEYSPACE system_views TO ada");
      await()
          .atMost(SOON)
          .until(
              () -> {
                clock.pass(Duration.ofSeconds(60));
                asked.probe();
                return asked.durabilityWarning();
              },
              words -> words.contains("Set commitlog_sync to group or batch there"));
    }
  }

  private static void assertWords(CassandraAddress wrong, String expected) {
    try (CassandraReadings refused = new CassandraReadings(wrong, Clock.systemUTC())) {
      String words = words(refused);
      assertTrue(words.contains(expected), words);
    }
  }

  /** One node is less than a quorum of three replicas. */
  @Test
  void aBatchWithoutAQuorumIsNamedAndNotAcknowledged() {
    CassandraReadings store = store();
    store.write(List.of(warm(0, 30)));
    replicate(3);
    try {
      String words = words(store);
      assertTrue(words.contains("has too few nodes up: 1 of the 2 that must answer"), words);
      assertThrows(StoreException.class, store::probe);
      assertThrows(StoreException.class, () -> store.read(SENSOR, EVER));
    } finally {
      replicate(1);
    }
    assertEquals(new WriteResult(1, 1), store.write(List.of(warm(0, 30), warm(60, 31))));
  }

  private static void replicate(int copies) {
    administrator.execute(
        "ALTER KEYSPACE garden WITH replication ="
            + " {'class': 'NetworkTopologyStrategy', 'datacenter1': "
            + copies
            + "}");
  }

  private static String words(CassandraReadings store) {
    return String.valueOf(
        assertThrows(StoreException.class, () -> store.write(List.of(warm(0, 31)))).getMessage());
  }

  @Test
  void readingsAreMovedThereAndBack(@TempDir Path folder) {
    List<Reading> batch =
        IntStream.range(0, 3_000)
            .mapToObj(i -> warm(new SensorId("sensor-" + i % 2), i * 60L, i / 100.0))
            .toList();
    try (SqliteReadings from = SqliteReadings.open(folder.resolve("from.db"));
        SqliteReadings back = SqliteReadings.open(folder.resolve("back.db"))) {
      from.write(batch);
      CassandraReadings there = store();
      assertEquals(new ReadingMove.Outcome(3_000, 3_000, 0, List.of()), moved(from, there));
      assertEquals(new ReadingMove.Outcome(3_000, 0, 0, List.of()), moved(from, there));
      assertEquals(new ReadingMove.Outcome(3_000, 3_000, 0, List.of()), moved(there, back));
      assertEquals(from.summaries(), back.summaries());
    }
  }

  private static <T extends ReadingSource & ReadingSink> ReadingMove.Outcome moved(
      ReadingSource from, T to) {
    return new ReadingMove(from, to, to, (sensor, day, left, share, readings) -> {}).run();
  }

  /** The whole service: the keyspace is unknown at the start, the node is frozen later. */
  @Test
  void whileItIsAwayReadingsAreKeptAndGoOverAfterwards(@TempDir Path folder) {
    try (RunningService service =
        RunningService.start(
            RunningService.config(
                folder, "embedded", Ports.free(), Cassandra.settings(server.url(KEYSPACE))),
            Clock.tickMillis(ZoneOffset.UTC))) {
      Grower grower = new Grower(service.api());
      grower.awaitBroker();
      Publisher publisher = Publisher.to(service.mqttPort());
      publisher.send("tepidarium/bag", backlog(0, 500));
      await().atMost(SOON).until(() -> grower.count("stored") == 500);
      grower.awaitReadingsPart(SOON, "up: writing to the keyspace garden at 127.0.0.1:", "");

      server.freeze(1);
      publisher.send("tepidarium/bag", backlog(400, 1_000));
      grower.awaitReadingsPart(
          SOON, "down: Cassandra has not answered since 20", "600 readings are kept");
      grower.awaitReadingsPart(SOON, "down:", "does not answer");

      server.thaw(1);
      await().atMost(SOON).until(() -> grower.count("waiting") == 0);
      grower.awaitReadingsPart(SOON, "up: writing", "");
      await().atMost(SOON).until(() -> grower.count("stored") == 1_000);
      assertEquals(100, grower.count("repeated"));
    }
    assertEquals(1_000, temperatures().size());
  }

  /** The driver would wait for what is under way, without end where a node is cut off. */
  @Test
  void whatIsUnderWayToAFrozenNodeEndsWithTheClose() throws Exception {
    CassandraReadings frozen = open();
    frozen.write(List.of(warm(0, 30)));
    server.freeze(1);
    try {
      AtomicReference<StoreException> failure = new AtomicReference<>();
      Thread writing =
          new Thread(
              () ->
                  failure.set(
                      assertThrows(
                          StoreException.class, () -> frozen.write(List.of(warm(60, 31))))));
      writing.start();
      await().atMost(SOON).until(() -> writing.getState() == Thread.State.WAITING);
      Thread closing = new Thread(frozen::close);
      closing.start();
      await().atMost(SOON).until(() -> !closing.isAlive() && !writing.isAlive());
      String words = String.valueOf(failure.get().getMessage());
      assertTrue(words.contains("does not answer"), words);
    } finally {
      server.thaw(1);
    }
  }

  private static String backlog(int from, int to) {
    return IntStream.range(from, to)
        .mapToObj(
            i ->
                "{\"temperature\":%s,\"at\":\"%s\"}"
                    .formatted(20 + i % 100 / 10.0, second(i * 60L)))
        .toList()
        .toString();
  }
}
