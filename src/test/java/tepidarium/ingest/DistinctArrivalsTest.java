package tepidarium.ingest;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.time.Instant;
import java.util.HashSet;
import java.util.Map;
import java.util.Set;
import org.junit.jupiter.api.Test;
import tepidarium.reading.Arrival;
import tepidarium.reading.Quantity;
import tepidarium.reading.Reading;
import tepidarium.reading.Readings;
import tepidarium.reading.SensorId;

class DistinctArrivalsTest {
  private static final Instant NOW = Instant.parse("2026-03-01T06:00:00Z");
  private static final SensorId BAG = new SensorId("bag");
  private static final Arrival LIVE = new Arrival(0, false, false);

  private final DistinctArrivals arrivals = new DistinctArrivals();

  private static Reading reading(SensorId sensor, Instant at, Arrival arrival) {
    return new Reading(sensor, at, Map.of(Quantity.TEMPERATURE, 30.0), arrival);
  }

  private Instant apart(SensorId sensor, Instant arrivedAt) {
    return arrivals.distinct(reading(sensor, arrivedAt, LIVE), arrivedAt).at();
  }

  @Test
  void readingsOfOneSensorInOneMillisecondGetAnInstantEach() {
    assertEquals(NOW, apart(BAG, NOW));
    assertEquals(NOW.plusMillis(1), apart(BAG, NOW));
    assertEquals(NOW.plusMillis(2), apart(BAG, NOW.plusMillis(1)));
    assertEquals(NOW, apart(new SensorId("other"), NOW.plusMillis(0)));
    assertEquals(NOW.plusMillis(9), apart(BAG, NOW.plusMillis(9)));
  }

  @Test
  void readingsWithATimeOrAnAgeKeepTheirInstant() {
    Reading own = Readings.ofAir(BAG, NOW, 30.0, null, null, null);
    Reading aged = reading(BAG, NOW.minusSeconds(60), LIVE);
    apart(BAG, NOW);

    assertEquals(own, arrivals.distinct(own, NOW));
    assertEquals(aged, arrivals.distinct(aged, NOW));
  }

  @Test
  void aFloodIsOfUncertainTimeRatherThanInTheFuture() {
    Set<Instant> certain = new HashSet<>();
    Set<Instant> uncertain = new HashSet<>();
    for (int i = 0; i < 25_000; i++) {
      Reading reading = arrivals.distinct(reading(BAG, NOW, LIVE), NOW);
      assertTrue((reading.uncertain() ? uncertain : certain).add(reading.at()));
    }
    assertEquals(10_001, certain.size());
    assertEquals(14_999, uncertain.size());
  }

  @Test
  void aClockThatWasSetBackStartsAnew() {
    apart(BAG, NOW);
    Instant back = NOW.minusSeconds(3_600);

    Reading reading = arrivals.distinct(reading(BAG, back, LIVE), back);
    assertEquals(back, reading.at());
    assertFalse(reading.uncertain());
  }
}
