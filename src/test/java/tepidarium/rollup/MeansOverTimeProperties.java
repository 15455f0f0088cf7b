package tepidarium.rollup;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.time.Duration;
import java.time.Instant;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.Random;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import tepidarium.container.ContainerId;
import tepidarium.heat.BenchPlace;
import tepidarium.heat.HeatBench;
import tepidarium.heat.HeatRule;
import tepidarium.heat.LocalHours;
import tepidarium.history.Downsampled;
import tepidarium.reading.Quantity;
import tepidarium.reading.Reading;
import tepidarium.reading.Readings;
import tepidarium.reading.Refined;
import tepidarium.reading.Samples;
import tepidarium.reading.Span;
import tepidarium.stats.AutocorrelatedMean.Estimate;

/** Tests that time-weighted statistics do not depend on the reporting interval. */
class MeansOverTimeProperties {
  private static final double EXACT = 1e-9;
  private static final Instant FROM = Instant.parse("2026-03-01T01:00:00Z");
  private static final int DAYS = 3;
  private static final Span SPAN = new Span(FROM, FROM.plus(Duration.ofDays(DAYS)));
  private static final HeatRule RULE = new HeatRule(12, 33.0);

  private static Bench bench(Samples course) {
    Bench bench = new Bench(FROM.plus(Duration.ofDays(DAYS + 2)));
    List<Reading> readings = new ArrayList<>();
    for (int i = 0; i < course.size(); i++) {
      Instant at = Instant.ofEpochMilli(course.atMs(i));
      readings.add(Readings.ofAir(Bench.SENSOR, at, course.value(i), null, null, null));
    }
    bench.sink.write(readings);
    return bench;
  }

  private static HeatBench.ComparedSide told(Bench bench) {
    return compare(bench, bench).sides().get(0);
  }

  private static HeatBench.Comparison compare(Bench first, Bench second) {
    LocalHours hours = LocalHours.of(SPAN, ZoneOffset.UTC);
    return HeatBench.compare(hours, List.of(side("a", first, hours), side("b", second, hours)));
  }

  private static HeatBench.Side side(String name, Bench bench, LocalHours hours) {
    var columns = bench.history.heatHours(bench.container(), hours, RULE);
    ContainerId id = new ContainerId(name);
    BenchPlace place = new BenchPlace(id, name, columns, List.of(), null);
    return new HeatBench.Side(name, name, false, List.of(place));
  }

  private static List<Downsampled.Point> points(Bench bench, int points) {
    return Objects.requireNonNull(
        bench.history.series(bench.container(), SPAN, points).get(Quantity.TEMPERATURE));
  }

  /**
   * A sensor that reports every half hour while it is steady at 32 °C and every minute in the cold
   * hour of each day, which goes straight to 20 °C and back: by hand, 32 − 12 / 2 / 24 = 31.75 °C.
   * The mean of the readings is 28.60 °C.
   */
  @Test
  void theMeanIsOverTimeAlthoughTheSensorReportsMoreOftenInTheCold() {
    Samples.Builder course = new Samples.Builder(400);
    long minuteMs = 60_000;
    for (int day = 0; day < DAYS; day++) {
      long start = FROM.toEpochMilli() + day * 1_440 * minuteMs;
      for (int minute = 0; minute < 60; minute++) {
        double depth = 1 - Math.abs(minute - 30) / 30.0;
        course.add(start + minute * minuteMs, 32 - 12 * depth);
      }
      for (int minute = 60; minute < 1_440; minute += 30) {
        course.add(start + minute * minuteMs, 32);
      }
    }
    course.add(FROM.toEpochMilli() + DAYS * 1_440 * minuteMs, 32);
    Bench bench = bench(course.build());
    HeatBench.ComparedSide told = told(bench);
    assertEquals(31.75, value(told.figures().meanC()), EXACT);
    assertEquals(26, told.profileC()[1], EXACT);
    assertEquals(32, told.profileC()[2], EXACT);
    assertEquals(31.75, points(bench, DAYS).get(1).mean(), EXACT);
    Samples all = bench.calibrated.samples(bench.container().id(), Quantity.TEMPERATURE, SPAN);
    assertEquals(31.75, Downsampled.of(all, SPAN, DAYS, Bench.GAP).get(1).mean(), EXACT);
  }

  @Property(tries = 40)
  void extraSamplesOnTheLineDoNotChangeTheResult(@ForAll long seed) {
    Random random = new Random(seed);
    Samples seldom = course(random);
    Samples often = Refined.of(seldom, Bench.GAP.toMillis(), random);
    Bench first = bench(seldom);
    Bench second = bench(often);
    same(told(first), told(second));
    Bench other = bench(course(random));
    var pair = compare(first, other).pairs().get(0).figures();
    var samePair = compare(second, other).pairs().get(0).figures();
    assertEquals(value(pair.meanC()), value(samePair.meanC()), EXACT);
    assertEquals(value(pair.degreeHoursPerDay()), value(samePair.degreeHoursPerDay()), 1e-7);
    int points = 1 + random.nextInt(DAYS * 24);
    samePoints(points(first, points), points(second, points));
  }

  private static void same(HeatBench.ComparedSide expected, HeatBench.ComparedSide told) {
    assertEquals(expected.hours(), told.hours());
    assertEquals(value(expected.figures().meanC()), value(told.figures().meanC()), EXACT);
    assertEquals(
        value(expected.figures().nightFloorC()), value(told.figures().nightFloorC()), EXACT);
    assertEquals(
        value(expected.figures().dailySwingC()), value(told.figures().dailySwingC()), EXACT);
    assertEquals(expected.variationC(), told.variationC(), EXACT);
    for (int hour = 0; hour < 24; hour++) {
      assertEquals(expected.profileC()[hour], told.profileC()[hour], EXACT);
    }
  }

  private static void samePoints(List<Downsampled.Point> expected, List<Downsampled.Point> told) {
    assertEquals(expected.size(), told.size());
    for (int i = 0; i < told.size(); i++) {
      assertEquals(expected.get(i).known(), told.get(i).known());
      assertEquals(expected.get(i).mean(), told.get(i).mean(), EXACT);
      assertEquals(expected.get(i).min(), told.get(i).min(), EXACT);
      assertEquals(expected.get(i).max(), told.get(i).max(), EXACT);
    }
  }

  /** The value, or NaN where there is none. */
  private static double value(@Nullable Estimate estimate) {
    return estimate == null ? Double.NaN : estimate.value();
  }

  /** Uneven steps, some of them gaps, and jumps. */
  private static Samples course(Random random) {
    Samples.Builder course = new Samples.Builder(300);
    long at = FROM.toEpochMilli() - 600_000;
    double celsius = 30;
    while (at < SPAN.toMs() + 600_000) {
      celsius = Math.max(10, Math.min(40, celsius + 3 * random.nextGaussian()));
      course.add(at, celsius);
      at += 1_000 * (random.nextInt(60) == 0 ? 9_000 : 1 + random.nextInt(1_800));
    }
    return course.build();
  }
}
