package tepidarium.rollup;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNull;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import org.junit.jupiter.api.Test;
import tepidarium.reading.Quantity;
import tepidarium.reading.Reading;
import tepidarium.reading.Span;

/**
 * The heat lost in the cold excursions of a span, against the sum over each pair of readings. The
 * container's base is 12 °C, its ceiling 33 °C and its low limit 29.5 °C.
 */
class LostHeatProperties {
  private static final double LOW_C = 29.5;
  private static final double BASE_C = 12;
  private static final long DAY_SECONDS = 24 * 3_600L;

  private static double lost(Bench bench, Span span) {
    return bench.history.band().cold(bench.container(), span).excursions().stream()
        .mapToDouble(out -> out.degreeHoursLost() == null ? 0 : out.degreeHoursLost())
        .sum();
  }

  /** By hand: 24 stretches of 20 min, each 2.5 °C too cold, lose 24 × 2.5 × 1/3 = 20 °C·h. */
  @Test
  void shortColdStretchesBetweenGapsAreCountedOnce() {
    Bench bench = new Bench(Bench.START.plusSeconds(3 * DAY_SECONDS));
    for (int i = 0; i < 24; i++) {
      long at = 3_600L * i;
      bench.store(
          Bench.reading(at, 27, 90, 0),
          Bench.reading(at + 600, 27, 90, 0),
          Bench.reading(at + 1_200, 27, 90, 0));
    }
    Span span = new Span(Bench.START, Bench.START.plusSeconds(DAY_SECONDS));
    assertEquals(20.0, lost(bench, span), 1e-9);
    var excursions = bench.history.band().cold(bench.container(), span).excursions();
    assertEquals(24, excursions.size());
    for (int i = 0; i < 24; i++) {
      assertNull(excursions.get(i).excursion().end(), "its end lies in a gap");
      assertEquals(
          Bench.START.plusSeconds(3_600L * i + 1_200), excursions.get(i).excursion().lastSeen());
      assertEquals(2.5 / 3, excursions.get(i).degreeHoursLost(), 1e-9);
    }
  }

  @Property(tries = 60)
  void theSumOverExcursionsIsTheSumOverReadings(@ForAll long seed) {
    Random random = new Random(seed);
    Bench bench = new Bench(Bench.START.plusSeconds(4 * DAY_SECONDS));
    List<Reading> record = record(random);
    bench.sink.write(record);
    if (random.nextBoolean()) {
      bench.rollups.catchUp();
    }
    Span whole = new Span(Bench.START, Bench.START.plusSeconds(3 * DAY_SECONDS));
    assertEquals(byReadings(record), lost(bench, whole), 1e-4);
  }

  private static List<Reading> record(Random random) {
    List<Reading> record = new ArrayList<>();
    long at = random.nextInt(3_600);
    double celsius = 29.5;
    while (at < 3 * DAY_SECONDS) {
      celsius = random.nextInt(40) == 0 ? 8 + random.nextInt(26) : celsius;
      record.add(Bench.reading(at, celsius + random.nextGaussian(), 90, 0));
      boolean gap = random.nextInt(12) == 0;
      at += gap ? 1_801 + random.nextInt(20_000) : 1 + random.nextInt(1_700);
    }
    return record;
  }

  /** Each pair of readings no further apart than half an hour, cut into 1,000 steps. */
  private static double byReadings(List<Reading> record) {
    double sum = 0;
    for (int i = 1; i < record.size(); i++) {
      Reading a = record.get(i - 1);
      Reading b = record.get(i);
      double seconds = b.at().getEpochSecond() - a.at().getEpochSecond();
      if (seconds <= 1_800) {
        sum +=
            seconds
                / 3_600
                * meanLoss(a.value(Quantity.TEMPERATURE), b.value(Quantity.TEMPERATURE));
      }
    }
    return sum;
  }

  /** The mean of what is missing to the low limit, no more than down to the base, °C. */
  private static double meanLoss(double startC, double endC) {
    int steps = 1_000;
    double sum = 0;
    for (int i = 0; i < steps; i++) {
      double celsius = startC + (endC - startC) * (i + 0.5) / steps;
      sum += Math.max(0, LOW_C - Math.max(BASE_C, celsius));
    }
    return sum / steps;
  }
}
