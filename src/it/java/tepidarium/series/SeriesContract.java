package tepidarium.series;

import static java.util.Objects.requireNonNull;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTimeout;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Collections;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Random;
import java.util.Set;
import java.util.TreeMap;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import tepidarium.reading.Arrival;
import tepidarium.reading.Quantity;
import tepidarium.reading.Reading;
import tepidarium.reading.Readings;
import tepidarium.reading.Samples;
import tepidarium.reading.SensorId;
import tepidarium.reading.Span;

/**
 * Contract tests for every store of readings. A backend's test only opens its own store.
 *
 * @param <S> the store
 */
abstract class SeriesContract<S extends ReadingSink & ReadingSource & ReadingTrimmer> {
  private static final SensorId BAG = new SensorId("bag");
  private static final Instant START = Instant.parse("2026-03-01T06:00:00.123Z");
  private static final Span ALL = new Span(START.minusSeconds(1_000), START.plusSeconds(1_000_000));

  private S store;

  /** Opens the store with its existing data. */
  abstract S open();

  abstract void close(S opened);

  @BeforeEach
  void openAnEmptyStore() {
    store = open();
    assertEquals(Map.of(), store.summaries());
  }

  @AfterEach
  void closeTheStore() {
    close(store);
  }

  void restart() {
    close(store);
    store = open();
  }

  S store() {
    return store;
  }

  static Instant second(long seconds) {
    return START.plusSeconds(seconds);
  }

  static Reading warm(SensorId sensor, long second, double temperature) {
    return Readings.ofAir(sensor, second(second), temperature, null, null, null);
  }

  static Reading warm(long second, double temperature) {
    return warm(BAG, second, temperature);
  }

  private static Reading full(
      long second,
      @Nullable Double temperature,
      @Nullable Double humidity,
      @Nullable Double light,
      @Nullable Double battery) {
    return Readings.ofAir(BAG, second(second), temperature, humidity, light, battery);
  }

  private static Map<Instant, Double> values(@Nullable Samples samples) {
    Map<Instant, Double> values = new TreeMap<>();
    for (int i = 0; samples != null && i < samples.size(); i++) {
      values.put(Instant.ofEpochMilli(samples.atMs(i)), samples.value(i));
    }
    return values;
  }

  Map<Instant, Double> temperatures(SensorId sensor, Span span) {
    return values(store.read(sensor, span).get(Quantity.TEMPERATURE));
  }

  private Map<Instant, Double> temperatures() {
    return temperatures(BAG, ALL);
  }

  @Test
  void readingsComeBackInOrderOfTime() {
    List<Reading> readings =
        new ArrayList<>(
            IntStream.range(0, 500).mapToObj(i -> warm(i * 60L, 20 + i / 100.0)).toList());
    long seed = System.nanoTime();
    Collections.shuffle(readings, new Random(seed));
    store.write(readings.subList(0, 200));
    store.write(readings.subList(200, 500));

    Samples samples = store.read(BAG, ALL).get(Quantity.TEMPERATURE);
    assertEquals(500, samples == null ? 0 : samples.size(), "seed " + seed);
    for (int i = 0; samples != null && i < 500; i++) {
      assertEquals(second(i * 60L).toEpochMilli(), samples.atMs(i), "seed " + seed);
      assertEquals(20 + i / 100.0, samples.value(i), 1e-9, "seed " + seed);
    }
  }

  @Test
  void aReadingThatComesAgainChangesNothing() {
    assertEquals(new WriteResult(1, 0), store.write(List.of(warm(0, 30))));

    assertEquals(new WriteResult(0, 1), store.write(List.of(warm(0, 30))));
    assertEquals(new WriteResult(0, 2), store.write(List.of(warm(0, 30), warm(0, 30.00001))));
    assertEquals(new WriteResult(1, 1), store.write(List.of(warm(1, 33), warm(1, 33))));
    assertEquals(Map.of(second(0), 30.0, second(1), 33.0), temperatures());
  }

  @Test
  void differentValuesOfOneInstantAreAllKeptAndKnownAgain() {
    Reading next = Readings.ofAir(BAG, second(0).plusMillis(1), 40.0, null, null, null);
    List<Reading> batch = List.of(warm(0, 30), warm(0, 31), next, warm(0, 32), warm(0, 31));
    WriteResult first = store.write(batch.subList(0, 1));
    WriteResult second = store.write(batch.subList(1, 5));

    assertEquals(new WriteResult(4, 1), first.plus(second));
    Map<Instant, Double> values = temperatures();
    assertEquals(30.0, values.get(second(0)));
    assertEquals(List.of(30.0, 31.0, 32.0, 40.0), values.values().stream().sorted().toList());
    assertEquals(new WriteResult(0, 5), store.write(batch));
    restart();
    assertEquals(new WriteResult(0, 5), store.write(batch));
    assertEquals(values, temperatures());
  }

  @Test
  void aClockThatStandsStillIsRefusedOnceTheInstantsAfterItAreTaken() {
    List<Reading> stuck = IntStream.range(0, 150).mapToObj(i -> warm(0, i / 2.0)).toList();
    WriteResult result = store.write(stuck);

    assertEquals(101, result.stored());
    assertEquals(
        stuck.subList(101, 150), result.refused().stream().map(RefusedReading::reading).toList());
    assertTrue(result.refused().get(0).reason().contains("Its clock seems to stand still"));
    assertEquals(101, temperatures().size());
  }

  /** Took a minute with a query for each of the instants, while all other sensors waited. */
  @Test
  void aClockThatStandsStillDoesNotBlockOtherSensors() {
    store.write(IntStream.range(0, 101).mapToObj(i -> warm(0, i / 100.0)).toList());
    List<Reading> stuck = IntStream.range(0, 5_000).mapToObj(i -> warm(0, 5 + i / 200.0)).toList();
    List<Reading> repeated = IntStream.range(0, 101).mapToObj(i -> warm(0, i / 100.0)).toList();
    Duration limit = Duration.ofSeconds(20);
    WriteResult result = assertTimeout(limit, () -> store.write(stuck));

    assertEquals(0, result.stored());
    assertEquals(5_000, result.refused().size());
    assertEquals(new WriteResult(0, 101), store.write(repeated));
  }

  /** Instants in a stretch that is full; each one has a stretch of its own after it. */
  @Test
  void aClockThatRepeatsSecondsDoesNotBlockOtherSensors() {
    store.write(instants(3_000, 0));
    List<Reading> again = instants(3_000, 5_000);
    Duration limit = Duration.ofSeconds(20);
    WriteResult result = assertTimeout(limit, () -> store.write(again));

    assertEquals(100, result.stored());
    assertEquals(2_900, result.refused().size());
    assertEquals(new WriteResult(0, 3_000), store.write(instants(3_000, 0)));
  }

  private static List<Reading> instants(int count, int light) {
    return IntStream.range(0, count)
        .mapToObj(
            i -> Readings.ofAir(BAG, START.plusMillis(i), null, null, (double) (light + i), null))
        .toList();
  }

  @Test
  void aReadingIsCompletedByTheQuantitiesItLacked() {
    store.write(List.of(full(0, 30.0, null, null, null)));

    assertEquals(new WriteResult(1, 0), store.write(List.of(full(0, 30.0, 96.0, null, null))));
    assertEquals(
        new WriteResult(2, 0),
        store.write(List.of(full(0, null, null, 0.0, null), full(0, null, null, null, 3.9))));
    Map<Quantity, Samples> samples = store.read(BAG, ALL);
    assertEquals(Map.of(second(0), 30.0), values(samples.get(Quantity.TEMPERATURE)));
    assertEquals(Map.of(second(0), 96.0), values(samples.get(Quantity.HUMIDITY)));
    assertEquals(Map.of(second(0), 0.0), values(samples.get(Quantity.LIGHT)));
    assertEquals(Map.of(second(0), 3.9), values(samples.get(Quantity.BATTERY)));
  }

  @Test
  void everyQuantityIsKept() {
    Map<Quantity, Double> values = new EnumMap<>(Quantity.class);
    for (Quantity quantity : Quantity.values()) {
      values.put(quantity, 7.25 + quantity.ordinal());
    }
    store.write(List.of(new Reading(BAG, second(0), values, null)));
    restart();
    Map<Quantity, Samples> read = store.read(BAG, ALL);
    for (Quantity quantity : Quantity.values()) {
      assertEquals(
          Map.of(second(0), values.get(quantity)), values(read.get(quantity)), quantity.key());
    }
  }

  private static Reading arrived(long second, double temperature, Arrival arrival) {
    return new Reading(BAG, second(second), Map.of(Quantity.TEMPERATURE, temperature), arrival);
  }

  @Test
  void aRepeatedDeliveryWithoutATimeOfItsOwnIsKnownByItsIdentifierAndValues() {
    Arrival first = new Arrival(7, false, false);
    Arrival again = new Arrival(7, true, false);
    store.write(List.of(arrived(0, 30, first), warm(10, 31)));
    restart();

    assertEquals(new WriteResult(0, 1), store.write(List.of(arrived(60, 30, again))));
    Arrival againWaited = new Arrival(7, true, true);
    assertEquals(new WriteResult(0, 1), store.write(List.of(arrived(60, 30, againWaited))));
    assertEquals(new WriteResult(1, 0), store.write(List.of(arrived(60, 31, again))));
    assertEquals(
        new WriteResult(1, 0), store.write(List.of(arrived(61, 30, new Arrival(8, true, false)))));
    assertEquals(
        new WriteResult(1, 1),
        store.write(
            List.of(
                arrived(70, 32, new Arrival(9, false, false)),
                arrived(71, 32, new Arrival(9, true, false)))));
    assertEquals(5, temperatures().size());
    assertEquals(Map.of(), store.uncertain());
  }

  @Test
  void readingsOfUncertainTimeAreKeptApart() {
    Arrival waited = new Arrival(7, false, true);
    SensorId other = new SensorId("other");
    List<Reading> batch =
        List.of(
            warm(0, 30),
            arrived(0, 31, waited),
            arrived(1, 32, waited),
            arrived(1, 33, waited),
            new Reading(
                other, second(5), Map.of(Quantity.HUMIDITY, 96.0), new Arrival(0, false, true)));
    assertEquals(new WriteResult(5, 0), store.write(batch));

    for (int round = 0; round < 2; round++) {
      assertEquals(Map.of(second(0), 30.0), temperatures());
      assertEquals(Set.of(BAG), store.summaries().keySet());
      assertEquals(second(0), requireNonNull(store.summaries().get(BAG)).last());
      assertEquals(3, requireNonNull(store.uncertain().get(BAG)).count());
      assertEquals(
          Map.of(second(0), 31.0, second(1), 32.0, second(1).plusMillis(1), 33.0),
          values(store.readUncertain(BAG, ALL).get(Quantity.TEMPERATURE)));
      assertEquals(new UncertainReadings(1, second(5)), store.uncertain().get(other));
      restart();
    }
    assertEquals(
        new WriteResult(0, 1), store.write(List.of(arrived(9, 32, new Arrival(7, true, true)))));
    while (store.deleteBefore(second(5), 1) == 1) {
      // The next ones.
    }
    assertEquals(Set.of(other), store.uncertain().keySet());
  }

  @Test
  void lateReadingsLandInTheirPlace() {
    store.write(List.of(warm(600, 31)));
    store.write(List.of(warm(0, 29), warm(300, 30)));

    assertEquals(Map.of(second(0), 29.0, second(300), 30.0, second(600), 31.0), temperatures());
    assertEquals(Optional.of(second(0)), store.firstAt(BAG, ALL));
  }

  @Test
  void bothEndsOfASpanBelongToIt() {
    store.write(List.of(warm(0, 29), warm(60, 30), warm(120, 31), warm(180, 32)));

    Span span = new Span(second(60), second(120));
    assertEquals(Map.of(second(60), 30.0, second(120), 31.0), temperatures(BAG, span));
    assertEquals(Optional.of(second(60)), store.firstAt(BAG, span));
    Span inner = new Span(second(60).plusMillis(1), second(120).minusMillis(1));
    assertEquals(Map.of(), temperatures(BAG, inner));
    assertEquals(Map.of(second(60), 30.0), temperatures(BAG, new Span(second(60), second(60))));
  }

  @Test
  void aSpanOrSensorWithoutReadingsIsEmpty() {
    store.write(List.of(warm(0, 30)));

    Span later = new Span(second(10), second(20));
    assertEquals(Map.of(), store.read(BAG, later));
    assertEquals(Optional.empty(), store.firstAt(BAG, later));
    SensorId stranger = new SensorId("stranger");
    assertEquals(Map.of(), store.read(stranger, ALL));
    assertEquals(Optional.empty(), store.firstAt(stranger, ALL));
    assertEquals(new WriteResult(0, 0), store.write(List.of()));
  }

  @Test
  void extremeValuesComeBackAsTheyWere() {
    store.write(List.of(full(0, -55.0, 0.0, 0.0, 0.0), full(1, 125.0, 110.0, 200_000.0, 60.0)));
    store.write(List.of(full(2, 21.1235, 0.0001, 99_999.9999, 3.3)));

    Map<Quantity, Samples> samples = store.read(BAG, ALL);
    assertEquals(
        Map.of(second(0), -55.0, second(1), 125.0, second(2), 21.1235),
        values(samples.get(Quantity.TEMPERATURE)));
    assertEquals(
        Map.of(second(0), 0.0, second(1), 110.0, second(2), 0.0001),
        values(samples.get(Quantity.HUMIDITY)));
    assertEquals(
        Map.of(second(0), 0.0, second(1), 200_000.0, second(2), 99_999.9999),
        values(samples.get(Quantity.LIGHT)));
  }

  @Test
  void allReadingsSurviveARestart() {
    store.write(List.of(full(0, 30.0, 96.0, 0.0, 3.9), full(60, 31.0, null, null, null)));
    Map<SensorId, SensorSummary> heard = store.summaries();
    restart();

    assertEquals(Map.of(second(0), 30.0, second(60), 31.0), temperatures());
    assertEquals(heard, store.summaries());
    assertEquals(new WriteResult(1, 1), store.write(List.of(warm(60, 31), warm(120, 32))));
  }

  @Test
  void aLargeBatchIsWrittenWhole() {
    List<Reading> batch =
        IntStream.range(0, 5_000)
            .mapToObj(i -> warm(new SensorId("sensor-" + i % 50), i, i / 100.0))
            .toList();

    assertEquals(new WriteResult(5_000, 0), store.write(batch));
    assertEquals(new WriteResult(0, 5_000), store.write(batch));
    restart();
    assertEquals(50, store.summaries().size());
    assertEquals(100, temperatures(new SensorId("sensor-7"), ALL).size());
  }

  @Test
  void sensorsOfAnyAllowedNameAreKeptApart() {
    List<SensorId> sensors =
        IntStream.of(1, 64)
            .mapToObj("x"::repeat)
            .map(SensorId::new)
            .collect(Collectors.toCollection(ArrayList::new));
    for (String name : List.of("X", "0", "-", "_", "a-b", "a_b", "A-b", "DROP", "null", "001")) {
      sensors.add(new SensorId(name));
    }
    for (int i = 0; i < sensors.size(); i++) {
      store.write(List.of(warm(sensors.get(i), 0, i)));
    }
    restart();

    for (int i = 0; i < sensors.size(); i++) {
      assertEquals(Map.of(second(0), (double) i), temperatures(sensors.get(i), ALL));
    }
    assertTrue(store.summaries().keySet().containsAll(sensors));
  }

  @Test
  void theSensorSummaryHasTheNewestValueOfEachQuantity() {
    store.write(List.of(full(0, 30.0, 96.0, null, 3.9), full(60, 31.0, null, 5.0, null)));
    store.write(List.of(full(30, 29.0, 95.0, null, null)));

    SensorSummary heard = store.summaries().get(BAG);
    assertEquals(
        new SensorSummary(
            second(0),
            second(60),
            Map.of(
                Quantity.TEMPERATURE, new SensorSummary.Value(31, second(60)),
                Quantity.HUMIDITY, new SensorSummary.Value(95, second(30)),
                Quantity.LIGHT, new SensorSummary.Value(5, second(60)),
                Quantity.BATTERY, new SensorSummary.Value(3.9, second(0)))),
        heard);
  }

  @Test
  void oldReadingsAreDeletedAndNewerOnesStay() {
    store.write(IntStream.range(0, 100).mapToObj(i -> warm(i * 60L, 20)).toList());
    while (store.deleteBefore(second(50 * 60), 20) == 20) {
      assertTrue(temperatures().size() >= 50);
    }
    assertEquals(50, temperatures().size());
    assertEquals(Optional.of(second(50 * 60)), store.firstAt(BAG, ALL));
  }
}
