package tepidarium.series;

import static java.util.Objects.requireNonNull;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTimeoutPreemptively;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.concurrent.atomic.AtomicInteger;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tepidarium.it.Influx;
import tepidarium.reading.Quantity;
import tepidarium.reading.Reading;
import tepidarium.reading.Readings;
import tepidarium.reading.Samples;
import tepidarium.reading.SensorId;
import tepidarium.reading.Span;
import tepidarium.series.influx.InfluxAddress;
import tepidarium.series.influx.InfluxReadings;

/** Runs the store contract, and tests specific to InfluxDB, against a real InfluxDB server. */
class InfluxReadingsIT extends SeriesContract<InfluxReadings> {
  private static final SensorId SENSOR = new SensorId("bag-2");
  private static final AtomicInteger TESTS = new AtomicInteger();

  @SuppressWarnings("NullAway.Init")
  private static Influx influx;

  private final String database = "test-" + TESTS.incrementAndGet();
  private final Instant now = Instant.now().truncatedTo(ChronoUnit.SECONDS);

  @BeforeAll
  static void startTheServer(@TempDir Path folder) {
    influx = Influx.started(folder);
  }

  @AfterAll
  static void stopTheServer() {
    influx.close();
  }

  @Override
  InfluxReadings open() {
    return new InfluxReadings(influx.address(database));
  }

  @Override
  void close(InfluxReadings opened) {
    opened.close();
  }

  private Reading temperature(Duration ago, double value) {
    return Readings.ofAir(SENSOR, now.minus(ago), value, null, null, null);
  }

  private Reading humidity(Duration ago, double value) {
    return Readings.ofAir(SENSOR, now.minus(ago), null, value, null, null);
  }

  private static List<Reading> readings(WriteResult result) {
    return result.refused().stream().map(RefusedReading::reading).toList();
  }

  private Samples temperatures(InfluxReadings store) {
    Span all = new Span(now.minus(Duration.ofDays(99)), now);
    return store.read(SENSOR, all).getOrDefault(Quantity.TEMPERATURE, Samples.EMPTY);
  }

  @Test
  void readingsOfATypeThatTheServerHoldsOtherwiseAreRefusedAndTheRestIsKept() {
    influx.write(database, "reading,sensor=x humidity=\"damp\" " + now.toEpochMilli());
    Reading bad = humidity(Duration.ofMinutes(2), 96);
    Reading good = temperature(Duration.ofMinutes(3), 30);
    Reading better = temperature(Duration.ofMinutes(1), 31);
    try (InfluxReadings store = open()) {
      WriteResult result = store.write(List.of(good, bad, better));

      assertEquals(List.of(bad), readings(result));
      assertEquals(2, result.stored());
      String reason = result.refused().get(0).reason();
      assertTrue(reason.contains("field type conflict: input field \"humidity\""), reason);
      assertTrue(!reason.contains("dropped"), reason);
      assertEquals(2, temperatures(store).size());
    }
  }

  @Test
  void readingsOlderThanTheServerKeepsAreRefusedAndTheRestIsKept() {
    String keep = "DURATION 1d SHARD DURATION 1h";
    influx.run("", "ALTER RETENTION POLICY autogen ON \"" + database + "\" " + keep);
    List<Reading> batch = new ArrayList<>();
    List<Reading> old = new ArrayList<>();
    for (int i = 0; i < 500; i++) {
      old.add(temperature(Duration.ofDays(20).minusMinutes(i), 20));
      batch.add(old.get(i));
      batch.add(temperature(Duration.ofMinutes(i), 30));
    }
    try (InfluxReadings store = open()) {
      WriteResult result = store.write(batch);

      assertEquals(Set.copyOf(old), Set.copyOf(readings(result)));
      assertEquals(500, result.refused().size());
      assertEquals(500, result.stored());
      assertTrue(
          result.refused().get(0).reason().contains("points beyond retention policy"),
          () -> result.refused().get(0).reason());
      assertEquals(500, temperatures(store).size());
    }
  }

  @Test
  void twoReasonsInOneBatchAreToldApart() {
    String keep = "DURATION 1d SHARD DURATION 1h";
    influx.run("", "ALTER RETENTION POLICY autogen ON \"" + database + "\" " + keep);
    influx.write(database, "reading,sensor=x humidity=\"damp\" " + now.toEpochMilli());
    Reading old = temperature(Duration.ofDays(20), 30);
    Reading wrong = humidity(Duration.ZERO, 96);
    try (InfluxReadings store = open()) {
      WriteResult result = store.write(List.of(old, wrong, temperature(Duration.ZERO, 30)));

      // The third reading shares its instant, and so its point, with the one of the wrong type.
      assertEquals(0, result.stored());
      assertEquals(3, result.refused().size());
      assertTrue(result.refused().get(0).reason().contains("retention"), result::toString);
      assertTrue(result.refused().get(1).reason().contains("conflict"), result::toString);
    }
  }

  @Test
  void aHistoryOfManyPagesIsReadWhole() {
    int readings = 45_000;
    try (InfluxReadings store = open()) {
      List<Reading> batch = new ArrayList<>();
      for (int i = readings; i > 0; i--) {
        batch.add(temperature(Duration.ofSeconds(i), i % 50));
      }
      store.write(batch);

      Samples samples = temperatures(store);
      assertEquals(readings, samples.size());
      assertEquals(now.minusSeconds(readings).toEpochMilli(), samples.firstMs());
    }
  }

  @Test
  void lateReadingsFarApartAreComparedWithWhatIsThere() {
    try (InfluxReadings store = open()) {
      store.write(
          List.of(temperature(Duration.ofDays(50), 20), temperature(Duration.ofDays(1), 21)));

      WriteResult result =
          store.write(
              List.of(
                  temperature(Duration.ofDays(50), 20),
                  temperature(Duration.ofDays(49), 2),
                  temperature(Duration.ofDays(25), 3),
                  temperature(Duration.ofDays(1), 21)));

      assertEquals(new WriteResult(2, 2), result);
      assertEquals(20, temperatures(store).value(0));
    }
  }

  @Test
  void valuesOfOthersThatAreNoNumbersAreLeftOut() {
    try (InfluxReadings store = open()) {
      store.write(List.of(humidity(Duration.ofMinutes(1), 96)));
      long at = now.toEpochMilli();
      influx.write(database, "reading,sensor=bag-2 temperature=\"warm\",humidity=95 " + at);
      influx.write(database, "reading,sensor=b\\ ad temperature=\"warm\",humidity=95 " + at);

      assertEquals(Samples.EMPTY, temperatures(store));
      assertEquals(List.of(SENSOR), List.copyOf(store.summaries().keySet()));
      SensorSummary heard = requireNonNull(store.summaries().get(SENSOR));
      assertEquals(Map.of(Quantity.HUMIDITY, new SensorSummary.Value(95, now)), heard.latest());
    }
  }

  @Test
  void anUnreachableServerIsReportedAtOnceAndGetsReadingsWhenItIsBack(@TempDir Path folder) {
    try (Influx own = Influx.started(folder);
        InfluxReadings store = new InfluxReadings(own.address("tepidarium"))) {
      store.write(List.of(temperature(Duration.ofMinutes(2), 30)));
      own.kill();

      List<Reading> next = List.of(temperature(Duration.ofMinutes(1), 31));
      assertTimeoutPreemptively(
          Duration.ofSeconds(5),
          () -> {
            assertThrows(StoreException.class, () -> store.write(next));
            StoreException e = assertThrows(StoreException.class, store::summaries);
            assertTrue(String.valueOf(e.getMessage()).contains("does not answer"), e::toString);
            assertThrows(StoreException.class, store::probe);
          });

      own.start();
      store.probe();
      assertEquals(new WriteResult(1, 0), store.write(next));
      assertEquals(2, temperatures(store).size());
    }
  }

  @Test
  void anUnknownHostCountsAsAnUnreachableStore() {
    InfluxAddress nowhere =
        new InfluxAddress("http://no-such-host.invalid:8086", "tepidarium", null, null, null);
    try (InfluxReadings store = new InfluxReadings(nowhere)) {
      assertThrows(StoreException.class, store::summaries);
    }
  }
}
