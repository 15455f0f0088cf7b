package tepidarium.series;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import java.time.Instant;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import tepidarium.reading.Quantity;
import tepidarium.reading.Reading;
import tepidarium.reading.Readings;
import tepidarium.reading.SensorId;

class SensorSummaryTest {
  private static final SensorId SENSOR = new SensorId("bag-1");

  @Test
  void eachQuantityKeepsItsNewestValueAlsoWhenLaterReadingsLackIt() {
    SensorSummary heard = SensorSummary.of(reading(1, 30.0, 96.0)).with(reading(3, 31.0, null));
    assertEquals(at(1), heard.first());
    assertEquals(at(3), heard.last());
    assertEquals(
        Map.of(
            Quantity.TEMPERATURE, new SensorSummary.Value(31.0, at(3)),
            Quantity.HUMIDITY, new SensorSummary.Value(96.0, at(1))),
        heard.latest());
  }

  @Test
  void aLateReadingMovesTheFirstInstantButNotTheNewestValue() {
    SensorSummary heard = SensorSummary.of(reading(3, 31.0, null)).with(reading(1, 30.0, 96.0));
    assertEquals(at(1), heard.first());
    assertEquals(at(3), heard.last());
    assertEquals(new SensorSummary.Value(31.0, at(3)), heard.latest().get(Quantity.TEMPERATURE));
    assertEquals(new SensorSummary.Value(96.0, at(1)), heard.latest().get(Quantity.HUMIDITY));
  }

  @Test
  void aReadingThatComesAgainAtTheSameInstantChangesNothing() {
    SensorSummary heard = SensorSummary.of(reading(1, 30.0, null));
    assertEquals(heard, heard.with(reading(1, 99.0, null)));
  }

  @Test
  void aReadingAtTheSameInstantCompletesWhatWasMissing() {
    SensorSummary heard = SensorSummary.of(reading(1, 30.0, null)).with(reading(1, 99.0, 96.0));
    assertEquals(new SensorSummary.Value(30.0, at(1)), heard.latest().get(Quantity.TEMPERATURE));
    assertEquals(new SensorSummary.Value(96.0, at(1)), heard.latest().get(Quantity.HUMIDITY));
  }

  @Test
  void returnedCollectionsCannotBeModified() {
    Map<Quantity, SensorSummary.Value> latest = new EnumMap<>(Quantity.class);
    SensorSummary heard = new SensorSummary(at(1), at(2), latest);
    latest.put(Quantity.LIGHT, new SensorSummary.Value(1, at(1)));
    assertEquals(Map.of(), heard.latest());
    assertThrows(UnsupportedOperationException.class, () -> heard.latest().clear());
  }

  @Provide
  Arbitrary<List<Integer>> orders() {
    return Arbitraries.shuffle(0, 1, 2, 3, 4, 5, 6, 7);
  }

  @Property
  void theResultDoesNotDependOnTheOrderOfArrival(@ForAll("orders") List<Integer> order) {
    assertEquals(heard(List.of(0, 1, 2, 3, 4, 5, 6, 7)), heard(order));
  }

  /** Readings at distinct instants; only every third one holds a humidity. */
  private static SensorSummary heard(List<Integer> order) {
    List<Reading> readings =
        order.stream().map(i -> reading(i, 20.0 + i, i % 3 == 0 ? 90.0 + i : null)).toList();
    SensorSummary heard = SensorSummary.of(readings.get(0));
    for (Reading reading : readings.subList(1, readings.size())) {
      heard = heard.with(reading);
    }
    return heard;
  }

  private static Instant at(int second) {
    return Instant.ofEpochSecond(1_770_000_000L + second);
  }

  private static Reading reading(
      int second, double temperatureC, @Nullable Double humidityPercent) {
    return Readings.ofAir(SENSOR, at(second), temperatureC, humidityPercent, null, null);
  }

  @Test
  void rollupsAfterAnInstantAreInvalidated() {
    SensorSummary heard = SensorSummary.of(reading(1, 30.0, 96.0)).with(reading(3, 31.0, null));

    SensorSummary forgetful = heard.forgetAfter(at(2));

    assertEquals(at(1), forgetful.first());
    assertEquals(at(2), forgetful.last());
    assertEquals(
        Map.of(Quantity.HUMIDITY, new SensorSummary.Value(96.0, at(1))), forgetful.latest());
    assertEquals(heard, heard.forgetAfter(at(3)));
  }
}
