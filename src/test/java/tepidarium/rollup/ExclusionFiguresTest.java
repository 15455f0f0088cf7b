package tepidarium.rollup;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.time.Duration;
import java.time.Instant;
import java.util.List;
import org.junit.jupiter.api.Test;
import tepidarium.fault.FaultDecision;
import tepidarium.fault.FaultKind;
import tepidarium.germination.HeatPath;
import tepidarium.germination.SeedHeat;
import tepidarium.germination.SeedPath;
import tepidarium.heat.HeatRule;
import tepidarium.heat.HeatSum;
import tepidarium.heat.Limit;
import tepidarium.reading.Quantity;
import tepidarium.reading.Readings;
import tepidarium.reading.SensorId;
import tepidarium.reading.Span;

/**
 * Six hours at 30 °C, one reading every 10 min, base 12 °C, ceiling 33 °C. All expected values by
 * hand. The whole-hour figures come from the hourly rollups, which must follow each decision.
 */
class ExclusionFiguresTest {
  private static final double ROUNDING = 1e-9;
  private static final Span SIX_HOURS = new Span(at(0), at(360));

  private final Bench bench = new Bench(Bench.START.plus(Duration.ofDays(1)));

  private static Instant at(int minute) {
    return Bench.START.plusSeconds(minute * 60L);
  }

  private void store(int faultyMinute, double faulty) {
    for (int minute = 0; minute <= 360; minute += 10) {
      bench.store(Bench.reading(minute * 60L, minute == faultyMinute ? faulty : 30, 90, 0));
    }
  }

  private void decide(FaultKind kind, int from, int to, boolean excluded) {
    bench.register.decide(
        new FaultDecision(
            Bench.SENSOR, Quantity.TEMPERATURE, kind, at(from), at(to), excluded, at(400), "Ada"));
  }

  private HeatSum heat() {
    return bench.history.heat(
        bench.container(), SIX_HOURS, HeatRule.of(bench.container().settings()));
  }

  private void heatIs(double degreeHours, double gapHours) {
    HeatSum heat = heat();
    assertEquals(degreeHours, heat.degreeHours(), ROUNDING);
    assertEquals(gapHours, heat.gapHours(), ROUNDING);
    assertEquals(6 - gapHours, heat.coveredHours(), ROUNDING);
    // A gap may have added nothing, or the ceiling throughout: 21 °C above the base.
    assertEquals(degreeHours, heat.lower(), ROUNDING);
    assertEquals(
        degreeHours + 21 * gapHours,
        heat.upper(HeatRule.of(bench.container().settings()), 34),
        ROUNDING);
    HeatSum byHistogram =
        bench.history.histogram(bench.container(), SIX_HOURS).heat(new HeatRule(12, 33.0));
    assertEquals(degreeHours, byHistogram.degreeHours(), ROUNDING);
    // Nothing else is missing here, so the whole gap was left out.
    leftOutIs(gapHours);
  }

  /** The same by the hourly sums, the histogram, the readings, and along the path of seeds. */
  private void leftOutIs(double hours) {
    HeatRule own = HeatRule.of(bench.container().settings());
    RollupTemperatures temperatures =
        new RollupTemperatures(bench.register, bench.calibrated, bench.history);
    for (HeatRule rule : List.of(own, new HeatRule(12, null), new HeatRule(12.1, 33.0))) {
      HeatSum sum = bench.history.heat(bench.container(), SIX_HOURS, rule);
      assertEquals(hours, sum.leftOutHours(), ROUNDING);
      SeedPath.Leg leg = new SeedPath.Leg(bench.container().id(), at(0), null);
      SeedHeat seeds = new HeatPath(temperatures, own).seedHeat(leg, at(360), at(360), rule);
      assertEquals(hours, seeds.leftOutHours(), ROUNDING);
    }
    assertEquals(
        hours * 3_600_000,
        bench.calibrated.leftOutMs(
            bench.container().id(), Quantity.TEMPERATURE, List.of(SIX_HOURS)),
        ROUNDING);
  }

  @Test
  void anErrorCodeIsLeftOutUntilItIsIncluded() {
    store(180, 85);
    // The two lines to 85 °C are a gap of 20 min: 18 °C · (6 h − 1/3 h).
    heatIs(102, 1 / 3.0);
    assertEquals(30, highest(), ROUNDING);
    decide(FaultKind.POWER_ON, 180, 180, false);
    // Each line: 3/55 of 10 min at 19.5 °C above the base on average, the rest at 21 °C.
    double line = (3 * 19.5 + 52 * 21) / 55 / 6;
    heatIs(102 + 2 * line, 0);
    assertEquals(85, highest(), ROUNDING);
    decide(FaultKind.POWER_ON, 180, 180, true);
    heatIs(102, 1 / 3.0);
    assertEquals(30, highest(), ROUNDING);
  }

  private double highest() {
    return bench.history.series(bench.container(), SIX_HOURS, 6).get(Quantity.TEMPERATURE).stream()
        .filter(point -> point.known())
        .mapToDouble(point -> point.max())
        .max()
        .orElseThrow();
  }

  @Test
  void aDoubtfulStretchIsCountedUntilItIsExcluded() {
    store(180, 50);
    double line = (3 * 19.5 + 17 * 21) / 20 / 6;
    heatIs(102 + 2 * line, 0);
    decide(FaultKind.SPIKE, 180, 180, true);
    heatIs(102, 1 / 3.0);
    decide(FaultKind.SPIKE, 180, 180, false);
    heatIs(102 + 2 * line, 0);
  }

  /**
   * Silence from 120 to 240 min. The excluded readings around it would cover the time from 90 to
   * 120 min and from 240 to 270 min; the silence is not left out.
   */
  @Test
  void silenceIsNotLeftOut() {
    for (int minute = 0; minute <= 360; minute += 10) {
      if (minute <= 120 || minute >= 240) {
        bench.store(Bench.reading(minute * 60L, 30, 90, 0));
      }
    }
    leftOutIs(0);
    decide(FaultKind.STUCK, 100, 260, true);
    leftOutIs(1);
    assertEquals(3, heat().gapHours(), ROUNDING);
    decide(FaultKind.STUCK, 100, 260, false);
    leftOutIs(0);
    assertEquals(2, heat().gapHours(), ROUNDING);
  }

  @Test
  void aSpanWithoutCountedReadingsIsLeftOutWhole() {
    store(180, 30);
    decide(FaultKind.STUCK, 0, 360, true);
    heatIs(0, 6);
  }

  /** Its readings, 5 min later each, cover the gap; so nothing is missing. */
  @Test
  void whatAnotherSensorFillsIsNotLeftOut() {
    store(180, 30);
    SensorId second = new SensorId("second");
    bench.register.place(second, bench.container().id(), at(0), null);
    for (int minute = 5; minute <= 360; minute += 10) {
      bench.store(Readings.ofAir(second, at(minute), 30.0, null, null, null));
    }
    decide(FaultKind.STUCK, 100, 260, true);
    heatIs(6 * 18, 0);
  }

  /** The stretch is shorter than the longest gap of 30 min, and yet not interpolated. */
  @Test
  void timeInBandAndExcursionsLeaveTheStretchOut() {
    store(180, 50);
    Limit hot = Limit.high(bench.container().band().temperatureHighC());
    assertEquals(1, bench.history.band().hot(bench.container(), SIX_HOURS).excursions().size());
    decide(FaultKind.STUCK, 175, 185, true);
    BandHistory.LimitSummary summary = bench.history.band().hot(bench.container(), SIX_HOURS);
    assertEquals(hot, summary.limit());
    assertEquals(List.of(), summary.excursions());
    assertEquals(340 * 60_000L, summary.time().coveredMs());
  }

  /** Excluding one kind of fault does not include readings of another kind. */
  @Test
  void decisionsAboutTwoKindsDoNotTouchEachOther() {
    store(180, 50);
    decide(FaultKind.STUCK, 170, 190, true);
    decide(FaultKind.SPIKE, 180, 180, true);
    decide(FaultKind.SPIKE, 180, 180, false);
    heatIs(18 * (6 - 2 / 3.0), 2 / 3.0);
  }

  @Test
  void lightOfAnExcludedStretchIsLeftOut() {
    for (int minute = 0; minute <= 360; minute += 10) {
      bench.store(Bench.reading(minute * 60L, 30, 90, minute == 180 ? 60 : 0));
    }
    assertEquals(10, luxHours(), ROUNDING);
    bench.register.decide(
        new FaultDecision(
            Bench.SENSOR, Quantity.LIGHT, FaultKind.SPIKE, at(180), at(180), true, at(400), "Ada"));
    assertEquals(0, luxHours(), ROUNDING);
    assertEquals(
        List.of(),
        bench.history.light(bench.container(), SIX_HOURS, 2, Duration.ofMinutes(2)).events());
  }

  private double luxHours() {
    return bench.history.light(bench.container(), SIX_HOURS, 2, Duration.ofMinutes(2)).luxHours();
  }
}
