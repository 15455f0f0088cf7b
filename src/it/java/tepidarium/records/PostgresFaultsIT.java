package tepidarium.records;

import static org.awaitility.Awaitility.await;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.net.InetAddress;
import java.net.ServerSocket;
import java.net.SocketTimeoutException;
import java.time.Duration;
import java.time.Instant;
import java.util.Collections;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import java.util.UUID;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.concurrent.locks.LockSupport;
import java.util.stream.Collectors;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import tepidarium.germination.Act;
import tepidarium.germination.Entry;
import tepidarium.germination.GroupId;
import tepidarium.it.Postgres;
import tepidarium.postgres.PostgresAddress;
import tepidarium.postgres.PostgresServer;
import tepidarium.reading.Reading;
import tepidarium.reading.Readings;
import tepidarium.reading.SensorId;
import tepidarium.records.postgres.PostgresRecords;
import tepidarium.records.postgres.Tenancy;
import tepidarium.series.StoreException;
import tepidarium.series.UnknownOutcome;
import tepidarium.series.WriteResult;
import tepidarium.series.postgres.PostgresReadings;

/**
 * Records, and readings where a standby takes over, in a PostgreSQL server that is killed, frozen
 * or replaced while they are written.
 */
class PostgresFaultsIT {
  private static final Duration LONG = Duration.ofMinutes(1);
  private static final int ENOUGH = 30;
  private static final int KILLS = 4;
  private static final long PAUSE_NANOS = 5_000_000;
  private static final Tenancy ALONE = Tenancy.alone("test");
  private static final AtomicInteger DATABASES = new AtomicInteger();

  private static Postgres server;

  private final String database = "garden" + DATABASES.incrementAndGet();
  private final PostgresAddress address = server.create(database);

  /** Its own default would lose the last commits. */
  @BeforeAll
  static void start() {
    server = Postgres.started("synchronous_commit = off");
  }

  @AfterAll
  static void stop() {
    server.close();
  }

  /** Appends entries until it is closed; remembers which were acknowledged. */
  private static final class Writer implements AutoCloseable {
    private final Set<UUID> acknowledged = Collections.synchronizedSet(new TreeSet<>());
    private final Set<UUID> refused = Collections.synchronizedSet(new TreeSet<>());
    private final Set<UUID> unknown = Collections.synchronizedSet(new TreeSet<>());
    private final GerminationRecords records;
    private final Thread thread = new Thread(this::run, "writer");
    private volatile boolean closing;

    Writer(Database database) {
      records = new GerminationRecords(database);
      thread.start();
    }

    private void run() {
      while (!closing) {
        UUID id = UUID.randomUUID();
        try {
          records.append(List.of(entry(id)));
          acknowledged.add(id);
        } catch (UnknownOutcome e) {
          // The server was away for longer than a commit waits; it may be stored, as the words say.
          unknown.add(id);
        } catch (StoreException e) {
          refused.add(id);
          LockSupport.parkNanos(PAUSE_NANOS);
        }
      }
    }

    void awaitMore() {
      int until = acknowledged.size() + ENOUGH;
      await().atMost(LONG).until(() -> acknowledged.size() >= until);
    }

    @Override
    public void close() {
      closing = true;
      try {
        thread.join();
      } catch (InterruptedException e) {
        Thread.currentThread().interrupt();
      }
    }
  }

  private static Entry entry(UUID id) {
    Act act = new Act.Survival(new GroupId(1, 1), 0);
    return new Entry(id, 1, Instant.EPOCH, act, Instant.EPOCH, "Ida", null, null, null, "digest");
  }

  private static Set<UUID> stored(PostgresAddress address) {
    try (Database database = PostgresRecords.open(address, ALONE)) {
      return new GerminationRecords(database)
          .entries().stream().map(Entry::id).collect(Collectors.toCollection(TreeSet::new));
    }
  }

  /** What was acknowledged is there, and what was refused is not. */
  private static void compare(Writer writer, PostgresAddress address) {
    Set<UUID> stored = stored(address);
    Set<UUID> lost = new TreeSet<>(writer.acknowledged);
    lost.removeAll(stored);
    assertEquals(Set.of(), lost);
    Set<UUID> unasked = new TreeSet<>(stored);
    unasked.retainAll(writer.refused);
    assertEquals(Set.of(), unasked);
    stored.removeAll(writer.unknown);
    assertEquals(writer.acknowledged.size(), stored.size());
  }

  @Test
  void everythingAcknowledgedOutlivesTheKillsOfTheServer() {
    Writer writer;
    try (Database records = PostgresRecords.open(address, ALONE);
        Writer writing = new Writer(records)) {
      writer = writing;
      for (int kill = 0; kill < KILLS; kill++) {
        writer.awaitMore();
        server.kill();
        server.start();
      }
      writer.awaitMore();
    }
    compare(writer, address);
  }

  @Test
  void theStandbyTakesOverWithEverythingAcknowledged() {
    try (Postgres first = Postgres.started("synchronous_commit = off")) {
      first.create(database);
      try (Postgres second = first.withStandby()) {
        String both =
            "postgresql://127.0.0.1:%d,127.0.0.1:%d/%s"
                .formatted(second.port(), first.port(), database);
        Writer writer;
        try (Database records = PostgresRecords.open(address("records", both), ALONE);
            PostgresReadings readings = new PostgresReadings(address("readings", both));
            Writer writing = new Writer(records)) {
          writer = writing;
          writer.awaitMore();
          assertEquals(new WriteResult(1, 0), readings.write(List.of(reading(0))));
          first.kill();
          assertThrows(StoreException.class, () -> readings.write(List.of(reading(1))));
          second.promote();
          writer.awaitMore();
          await()
              .atMost(LONG)
              .ignoreException(StoreException.class)
              .until(
                  () -> readings.write(List.of(reading(0), reading(1))),
                  new WriteResult(1, 1)::equals);
        }
        compare(writer, second.address(database));
      }
    }
  }

  private static PostgresAddress address(String settings, String url) {
    return PostgresAddress.of(settings, url, Postgres.USER, Postgres.PASSWORD);
  }

  private static Reading reading(int minute) {
    Instant at = Instant.parse("2026-03-01T06:00:00Z").plusSeconds(60L * minute);
    return Readings.ofAir(new SensorId("jar-1"), at, 30.0, null, null, null);
  }

  /** A network that swallows every byte looks the same. */
  @Test
  void aServerThatDoesNotAnswerFailsTheWriteAndIsUsedAgainLater() {
    try (Database opened = PostgresRecords.open(address, ALONE)) {
      GerminationRecords records = new GerminationRecords(opened);
      records.append(List.of(entry(new UUID(0, 1))));
      server.freeze();
      String words;
      try {
        words = refused(records);
      } finally {
        server.thaw();
      }
      assertTrue(words.contains("does not answer"), words);
      await()
          .atMost(LONG)
          .ignoreException(StoreException.class)
          .untilAsserted(() -> records.append(List.of(entry(new UUID(0, 3)))));
    }
    assertEquals(Set.of(new UUID(0, 1), new UUID(0, 3)), stored(address));
  }

  private static String refused(GerminationRecords records) {
    return String.valueOf(
        assertThrows(StoreException.class, () -> records.append(List.of(entry(new UUID(0, 2)))))
            .getMessage());
  }

  /** A socket that takes connections and never answers, as the kernel does for a frozen server. */
  @Test
  void aFrozenServerIsAskedOnceAndNotForEachConnection() throws Exception {
    try (ServerSocket frozen = new ServerSocket(0, 50, InetAddress.getLoopbackAddress())) {
      String url =
          "postgresql://127.0.0.1:%d,127.0.0.1:%d/%s?sslmode=disable"
              .formatted(frozen.getLocalPort(), server.port(), database);
      PostgresServer servers =
          new PostgresServer(
              PostgresAddress.of("records", url, Postgres.USER, Postgres.PASSWORD), 10);
      for (int i = 0; i < 3; i++) {
        PostgresServer.close(servers.connect());
      }
      frozen.accept().close();
      frozen.setSoTimeout(1);
      assertThrows(SocketTimeoutException.class, frozen::accept);
    }
  }

  @Test
  void aServerWithoutSyncIsRefused() {
    try (Postgres careless = Postgres.started("fsync = off")) {
      PostgresAddress there = careless.create(database);
      String words =
          String.valueOf(
              assertThrows(
                      IllegalStateException.class, () -> PostgresRecords.open(there, ALONE).close())
                  .getMessage());
      assertTrue(words.contains("Set fsync = on"), words);
    }
  }
}
