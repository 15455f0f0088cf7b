package tepidarium.records;

import static org.awaitility.Awaitility.await;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.function.BooleanSupplier;
import java.util.function.Consumer;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import tepidarium.it.MovableClock;
import tepidarium.it.Postgres;
import tepidarium.postgres.PostgresAddress;
import tepidarium.records.postgres.PostgresRecords;
import tepidarium.records.postgres.Tenancy;
import tepidarium.records.postgres.Waiting;
import tepidarium.records.postgres.WaitingService;
import tepidarium.series.StoreException;

/** Two services and one database: one owns it, and what the other writes is refused. */
class PostgresLeaseIT {
  private static final Duration LONG = Duration.ofMinutes(1);
  private static final AtomicInteger DATABASES = new AtomicInteger();
  private static final String TAKE =
      "UPDATE lease SET owner = 'second', epoch = epoch + 1,"
          + " ends_at = clock_timestamp() + interval '1 hour'";
  private static Postgres server;

  private final String database = "garden" + DATABASES.incrementAndGet();
  private final PostgresAddress address = server.create(database);
  private final CompletableFuture<String> lost = new CompletableFuture<>();

  @BeforeAll
  static void start() {
    server = Postgres.started();
  }

  @AfterAll
  static void stop() {
    server.close();
  }

  private Database open(String owner) {
    return PostgresRecords.open(address, waits(owner, () -> true));
  }

  private Tenancy waits(String owner, BooleanSupplier reachesBroker) {
    return new Tenancy(
        owner, owner, true, reachesBroker, waiting -> {}, Clock.systemUTC(), lost::complete);
  }

  private static void put(Database records, String name) {
    new ContainerRecords(records).put(RecordsContract.bag(name));
  }

  private List<String> names() {
    return server.ask(database, "SELECT name FROM container");
  }

  private PostgresRecords open(Tenancy tenancy) {
    return PostgresRecords.open(address, tenancy);
  }

  private String owner() {
    return server.ask(database, "SELECT owner FROM lease").get(0);
  }

  private List<String> takeOvers() {
    return server.ask(
        database, "SELECT previous || ' ' || machine || ' ' || reason FROM take_over ORDER BY id");
  }

  /** Otherwise it would give it back once more a minute later. */
  @Test
  void aLeaseThatNobodyTookAfterItWasGivenBackForTheBrokerCountsAsHandedOver() {
    PostgresRecords first = open(waits("first", () -> false));
    first.giveBackForBroker();
    first.close();
    try (PostgresRecords again = open(waits("first", () -> false))) {
      assertTrue(again.wasGivenBackForBroker(LONG));
      assertEquals(List.of("first first broker"), takeOvers());
    }
  }

  private static String refused(Runnable change) {
    return String.valueOf(assertThrows(StoreException.class, change::run).getMessage());
  }

  @Test
  void aSecondServiceThatDoesNotWaitIsRefused() {
    try (Database first = open("first")) {
      String words =
          String.valueOf(
              assertThrows(
                      IllegalStateException.class,
                      () -> PostgresRecords.open(address, Tenancy.alone("second")).close())
                  .getMessage());
      assertTrue(words.startsWith("another service (first)"), words);
      put(first, "Bag");
      assertFalse(lost.isDone());
    }
  }

  /** As with two machines that began with a copy of the same data folder. */
  @Test
  void aServiceWithTheSameNameIsAnother() {
    try (Database first = open("first")) {
      assertThrows(
          IllegalStateException.class,
          () -> PostgresRecords.open(address, Tenancy.alone("first")).close());
      put(first, "Bag");
      assertFalse(lost.isDone());
    }
  }

  @Test
  void aServiceThatWaitsTakesOverOnceTheFirstStops() {
    CompletableFuture<Database> second;
    try (Database first = open("first")) {
      put(first, "Bag");
      second = CompletableFuture.supplyAsync(() -> open("second"));
    }
    try (Database taken = second.join()) {
      put(taken, "Other");
    }
    assertEquals(List.of("Other"), names());
    assertEquals(List.of("2"), server.ask(database, "SELECT epoch FROM lease"));
    assertEquals(List.of("first second stopped"), takeOvers());
  }

  private Tenancy second(Clock clock, Consumer<Waiting> waiting) {
    return new Tenancy("second", "second", true, () -> true, waiting, clock, lost::complete);
  }

  /** It would refuse readings of sensors with a clock, or give the others a wrong time. */
  @ParameterizedTest
  @ValueSource(ints = {-60, 60})
  void aServiceWithAWrongClockTakesOverOnceItIsSet(int minutesAhead) {
    MovableClock clock = new MovableClock(Instant.now().plus(Duration.ofMinutes(minutesAhead)));
    CompletableFuture<Waiting> told = new CompletableFuture<>();
    Tenancy second =
        second(
            clock,
            waiting -> {
              if (waiting.clockAhead() != null) {
                told.complete(waiting);
              }
            });
    open("first").close();
    CompletableFuture<PostgresRecords> opening = CompletableFuture.supplyAsync(() -> open(second));
    Duration ahead = told.orTimeout(1, TimeUnit.MINUTES).join().clockAhead();
    assertEquals(minutesAhead, ahead.plusSeconds(30).toMinutes(), 1);
    assertFalse(opening.isDone());
    clock.set(Instant.now());
    try (PostgresRecords records = opening.join()) {
      put(records, "Bag");
    }
    assertEquals(List.of("Bag"), names());
  }

  /** The lease has run out for both; the one that waits asks first, each half a second. */
  @Test
  void afterTheDatabaseWasAwayTheServiceThatWorkedHasTheFirstClaim() throws Exception {
    open("first").close();
    server.run(
        database,
        "UPDATE lease SET ends_at = clock_timestamp() + interval '1 hour', given_back = NULL");
    CompletableFuture<String> away = new CompletableFuture<>();
    Tenancy second =
        second(
            Clock.systemUTC(),
            waiting -> {
              if (waiting.working() == null) {
                away.complete("");
              }
            });
    CompletableFuture<PostgresRecords> waiting = CompletableFuture.supplyAsync(() -> open(second));
    await().atMost(LONG).until(() -> isWaiting("second"));
    server.kill();
    away.get(1, TimeUnit.MINUTES);
    server.start();
    server.run(database, "UPDATE lease SET ends_at = clock_timestamp()");
    // It says twice that it waits: in between, it left the lease alone.
    awaitNextAnnouncement();
    awaitNextAnnouncement();
    assertTrue(owner().startsWith("first."), owner());
    try (Database first = open("first")) {
      put(first, "Bag");
      assertEquals(List.of(), takeOvers());
    }
    // Given back in order, nobody else has a claim.
    waiting.get(1, TimeUnit.MINUTES).close();
    assertEquals(List.of("first second stopped"), takeOvers());
  }

  private void awaitNextAnnouncement() {
    String seen = announcement();
    await().atMost(LONG).until(() -> !announcement().equals(seen));
  }

  private String announcement() {
    return String.valueOf(server.ask(database, "SELECT seen_at FROM waiting_service"));
  }

  private boolean isWaiting(String machine) {
    return server
        .ask(database, "SELECT count(*) FROM waiting_service WHERE owner LIKE '" + machine + ".%'")
        .equals(List.of("1"));
  }

  @Test
  void aServiceThatReachesTheBrokerTakesWhatWasGivenBackForIt() throws Exception {
    PostgresRecords first = open(waits("first", () -> false));
    CompletableFuture<PostgresRecords> cut;
    CompletableFuture<PostgresRecords> second;
    try {
      cut = CompletableFuture.supplyAsync(() -> open(waits("cut", () -> false)));
      await().atMost(LONG).until(() -> isWaiting("cut"));
      second = CompletableFuture.supplyAsync(() -> open(waits("second", () -> true)));
      await().atMost(LONG).until(() -> isWaiting("second"));
      assertEquals(
          List.of(new WaitingService("cut", false), new WaitingService("second", true)),
          first.waiting());
      assertFalse(first.wasGivenBackForBroker(LONG));
      first.giveBackForBroker();
    } finally {
      first.close();
    }
    CompletableFuture<PostgresRecords> again =
        CompletableFuture.supplyAsync(() -> open(waits("first", () -> true)));
    try (PostgresRecords taken = second.get(1, TimeUnit.MINUTES)) {
      assertEquals(List.of("first second broker"), takeOvers());
      assertTrue(taken.wasGivenBackForBroker(LONG));
      assertEquals("second", taken.lease().machine());
      assertEquals(2, taken.lease().epoch());
    }
    // Each of the two takes it when the other one stops.
    CompletableFuture.allOf(
            cut.thenAccept(PostgresRecords::close), again.thenAccept(PostgresRecords::close))
        .get(1, TimeUnit.MINUTES);
  }

  @Test
  void nothingIsStoredWithAnOldEpoch() {
    try (Database first = open("first")) {
      put(first, "Bag");
      server.run(database, TAKE);
      assertTrue(refused(() -> put(first, "Late")).contains("has taken over the database"));
      assertEquals(List.of("Bag"), names());
      assertTrue(lost.join().contains("another service has taken over"));
    }
  }

  /** The epoch is checked at the end of the transaction, not at its beginning alone. */
  @Test
  void aTransactionThatBeganBeforeTheTakeOverIsNotCommitted() {
    try (Database first = open("first")) {
      put(first, "Bag");
      String words =
          refused(
              () ->
                  first.transaction(
                      handle -> {
                        int changed = handle.execute("UPDATE container SET name = 'Late'");
                        server.run(database, TAKE);
                        return changed;
                      }));
      assertTrue(words.contains("has taken over the database"), words);
      assertEquals(List.of("Bag"), names());
    }
  }

  @Test
  void aServiceThatCannotRenewGivesUpByItself() {
    try (Database first = open("first")) {
      put(first, "Bag");
      server.freeze();
      try {
        await().atMost(LONG).until(lost::isDone);
      } finally {
        server.thaw();
      }
      assertTrue(lost.join().contains("could not be renewed for 7 s"), lost.join());
    }
  }

  /** A service that shares its database with none goes on. */
  @Test
  void aServiceAloneOutlivesAnOutageLongerThanTheLease() {
    try (Database alone = PostgresRecords.open(address, Tenancy.alone("first"))) {
      put(alone, "Bag");
      server.run(database, "UPDATE lease SET ends_at = clock_timestamp() - interval '1 s'");
      put(alone, "Other");
      assertEquals(List.of("Other"), names());
    }
  }
}
