package tepidarium.rollup;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNull;

import java.time.Duration;
import org.junit.jupiter.api.Test;
import tepidarium.reading.Readings;
import tepidarium.reading.Span;

/** The change of temperature and humidity while light is in a container, by hand. */
class LightChangeTest {
  private final Bench bench = new Bench(Bench.START.plus(Duration.ofDays(2)));

  private ContainerHistory.LightEventDetail only() {
    Span day = new Span(Bench.START, Bench.START.plus(Duration.ofDays(1)));
    var events = bench.history.light(bench.container(), day, 1, Duration.ofMinutes(2)).events();
    assertEquals(1, events.size());
    return events.get(0);
  }

  /** Lit from 600 s, dark from 1,200 s on; meanwhile from 30 to 27.5 °C and from 95 to 84 %. */
  @Test
  void theChangeIsTheValueAtTheEndLessThatAtTheStart() {
    bench.store(
        Bench.reading(0, 31, 96, 0),
        Bench.reading(600, 30, 95, 100),
        Bench.reading(900, 29, 90, 100),
        Bench.reading(1_200, 27.5, 84, 0),
        Bench.reading(1_500, 20, 70, 0));
    ContainerHistory.LightEventDetail lit = only();
    assertEquals(-2.5, lit.temperatureChangeC(), 1e-9);
    assertEquals(-11, lit.humidityChangePercent(), 1e-9);
  }

  @Test
  void aQuantityWithoutReadingsHasNoChange() {
    for (int at : new int[] {600, 1_200}) {
      bench.store(
          Readings.ofAir(Bench.SENSOR, Bench.START.plusSeconds(at), null, 95.0, 100.0, null));
    }
    assertNull(only().temperatureChangeC());
    assertEquals(0, only().humidityChangePercent());
  }
}
