package tepidarium.rollup;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import org.junit.jupiter.api.Test;
import tepidarium.heat.DegreeHours;
import tepidarium.heat.HeatRule;
import tepidarium.heat.HeatSum;
import tepidarium.reading.Quantity;
import tepidarium.reading.Reading;
import tepidarium.reading.Samples;
import tepidarium.reading.Span;

/** Tests that heat by another rule than the container's own equals the heat from the readings. */
class ContainerHoursProperties {
  private static final int SECONDS = 4 * 24 * 3_600;

  /** Slow oscillations, so that whole hours lie below, between and above base and ceiling. */
  private static List<Reading> record(Random random, double meanC, double swingC) {
    List<Reading> record = new ArrayList<>();
    long at = random.nextInt(7_200);
    while (at < SECONDS) {
      double celsius = meanC + swingC * Math.sin(at / 20_000.0) + random.nextGaussian() / 5;
      record.add(Bench.reading(at, celsius, 90, 0));
      at += random.nextInt(60) == 0 ? random.nextInt(20_000) + 1 : random.nextInt(1_200) + 1;
    }
    return record;
  }

  @Property(tries = 300)
  void heatByAnyRuleEqualsTheHeatOfTheReadings(@ForAll long seed) {
    Random random = new Random(seed);
    Bench bench = new Bench(Bench.START.plusSeconds(SECONDS + 7_200));
    bench.sink.write(record(random, 15 + random.nextInt(20), random.nextInt(12)));
    long a = random.nextInt(SECONDS);
    long b = random.nextInt(SECONDS);
    Span whole = new Span(Bench.START.minusSeconds(5_000), Bench.START.plusSeconds(SECONDS));
    Span part =
        new Span(Bench.START.plusSeconds(Math.min(a, b)), Bench.START.plusSeconds(Math.max(a, b)));
    double base = 5 + random.nextInt(25);
    HeatRule rule = new HeatRule(base, random.nextBoolean() ? null : base + 1 + random.nextInt(15));
    HeatSum told = bench.history.summary(bench.container(), whole).hours().heat(part, rule);
    agrees(bench, part, rule, told);
    agrees(bench, part, rule, bench.history.heat(bench.container(), part, rule));
  }

  private static void agrees(Bench bench, Span span, HeatRule rule, HeatSum told) {
    Samples samples = bench.calibrated.samples(bench.container().id(), Quantity.TEMPERATURE, span);
    HeatSum truth = DegreeHours.of(samples, span, rule, Bench.GAP);
    assertEquals(truth.degreeHours(), told.degreeHours(), 1e-6);
    assertEquals(truth.hoursAboveBase(), told.hoursAboveBase(), 1e-6);
    assertEquals(truth.coveredMs(), told.coveredMs());
    assertEquals(truth.gapMs(), told.gapMs());
  }

  @Test
  void warmDaysAreNotReadAgain() {
    Bench bench = new Bench(Bench.START.plusSeconds(SECONDS + 7_200));
    bench.sink.write(record(new Random(1), 29, 1));
    bench.rollups.catchUp();
    Span span = new Span(Bench.START, Bench.START.plusSeconds(SECONDS));
    int before = bench.readings.reads();
    HeatSum told = bench.history.heat(bench.container(), span, new HeatRule(15, 36.0));
    assertTrue(told.degreeHours() > 1_000, told.toString());
    assertTrue(bench.readings.reads() - before <= 6, "only around the two ends");
  }

  @Test
  void unreadHoursAreAGap() {
    Bench bench = new Bench(Bench.START.plusSeconds(SECONDS));
    bench.sink.write(record(new Random(2), 29, 1));
    Span read = new Span(Bench.START.plusSeconds(7_200), Bench.START.plusSeconds(90_000));
    Span wider = new Span(Bench.START, Bench.START.plusSeconds(180_000));
    HeatRule rule = new HeatRule(15, null);
    ContainerHours hours = bench.history.summary(bench.container(), read).hours();
    assertEquals(hours.heat(read, rule).degreeHours(), hours.heat(wider, rule).degreeHours());
    assertEquals(hours.heat(read, rule).gapMs() + 97_200_000L, hours.heat(wider, rule).gapMs());
  }
}
