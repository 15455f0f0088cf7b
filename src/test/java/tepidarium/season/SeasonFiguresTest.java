package tepidarium.season;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.time.ZoneOffset;
import java.util.List;
import java.util.Set;
import org.junit.jupiter.api.Test;
import tepidarium.container.ContainerId;
import tepidarium.fault.FaultDecision;
import tepidarium.fault.FaultKind;
import tepidarium.germination.Act;
import tepidarium.germination.GroupId;
import tepidarium.germination.HeatPath;
import tepidarium.germination.Shelf;
import tepidarium.germination.SowingTimeline;
import tepidarium.heat.HeatRule;
import tepidarium.reading.Quantity;
import tepidarium.reading.Span;
import tepidarium.rollup.Bench;
import tepidarium.rollup.RollupTemperatures;

/**
 * Figures of the season report, each worked out by hand from a day of readings every 10 min: 30 °C,
 * 95 % and dark but for what a test says. The base is 12 °C, the ceiling 33 °C, the band 29.5 to 34
 * °C, above 80 % and up to 1 lux. Readings from 14 to 16 h are missing.
 */
class SeasonFiguresTest {
  private static final long HOUR = 3_600;
  private static final long STEP = 600;

  /** From 10 to 12 h 27 °C. */
  private static final long COLD_FROM = 10 * HOUR;

  private static final long COLD_TO = 12 * HOUR;

  private final Bench bench = new Bench(Bench.START.plusSeconds(48 * HOUR));

  private ContainerResult day() {
    for (long at = 0; at <= 24 * HOUR; at += STEP) {
      boolean missing = at > 14 * HOUR && at < 16 * HOUR;
      if (!missing) {
        bench.store(Bench.reading(at, celsius(at), percent(at), lux(at)));
      }
    }
    return result();
  }

  private ContainerResult result() {
    Span day = new Span(Bench.START, Bench.START.plusSeconds(24 * HOUR));
    SeasonContainers containers =
        new SeasonContainers(
            bench.register,
            bench.history,
            new RollupTemperatures(bench.register, bench.calibrated, bench.history),
            day,
            day.to(),
            ZoneOffset.UTC,
            null);
    return containers.results(Set.of()).get(0);
  }

  /** One reading of 35 °C at 20 h. */
  private static double celsius(long at) {
    boolean cold = at >= COLD_FROM && at <= COLD_TO;
    return at == 20 * HOUR ? 35 : cold ? 27 : 30;
  }

  /** 70 % from 18 to 19 h. */
  private static double percent(long at) {
    return at >= 18 * HOUR && at <= 19 * HOUR ? 70 : 95;
  }

  /** Three readings of 100 lux from 5 h. */
  private static double lux(long at) {
    return at >= 5 * HOUR && at <= 5 * HOUR + 2 * STEP ? 100 : 0;
  }

  /**
   * 22 covered hours at 18 °C above the base; less 2 h of 3 °C and two flanks of 1/6 h at 1.5 °C on
   * average; and two flanks up to 35 °C that are cut off at 33 °C: 0.1 h at 1.5 and 1/15 h at 3 °C.
   */
  @Test
  void heatADayIsThatOfTheCoveredHours() {
    double heat = 22 * 18 - (2 * 3 + 2 * 1.5 / 6) + 2 * (0.1 * 1.5 + 3 / 15.0);
    ContainerResult told = day();
    assertEquals(22, told.coveredHours(), 1e-9);
    assertEquals(2, told.gapHours(), 1e-9);
    assertEquals(heat, told.degreeHours(), 1e-6);
    assertEquals(24 * heat / 22, told.degreeHoursPerDay(), 1e-6);
    assertEquals(27, told.coldest());
    assertEquals(35, told.hottest());
  }

  /**
   * Readings from 13 to 17 h do not count. They would cover 12:50 to 14:00 and 16:00 to 17:10, that
   * is 7/3 h; the 2 h between are silence.
   */
  @Test
  void hoursLeftOutAreToldApartFromSilence() {
    assertEquals(0, day().leftOutHours(), 1e-9);
    decide(true);
    assertEquals(7 / 3.0, result().leftOutHours(), 1e-9);
    assertEquals(2 + 7 / 3.0, result().gapHours(), 1e-9);
    decide(false);
    assertEquals(0, result().leftOutHours(), 1e-9);
    assertEquals(2, result().gapHours(), 1e-9);
  }

  private void decide(boolean excluded) {
    bench.register.decide(
        new FaultDecision(
            Bench.SENSOR,
            Quantity.TEMPERATURE,
            FaultKind.STUCK,
            Bench.START.plusSeconds(13 * HOUR),
            Bench.START.plusSeconds(17 * HOUR),
            excluded,
            Bench.START.plusSeconds(48 * HOUR),
            "Ada"));
  }

  /** A flank of 10 min between 30 and 27 °C is below 29.5 °C for 500 s, and 1.25 °C on average. */
  @Test
  void timeOutsideAndHeatLostAreThoseBeyondTheLimits() {
    ContainerResult told = day();
    double cold = 2 + 1_000 / 3_600.0;
    double hot = 240 / 3_600.0;
    assertEquals(cold, told.cold().hours(), 1e-6);
    assertEquals(1, told.cold().excursions());
    assertEquals(cold, told.cold().longestHours(), 1e-6);
    assertEquals(2 * 2.5 + 1_000 / 3_600.0 * 1.25, told.cold().degreeHoursLost(), 1e-6);
    assertEquals(hot, told.hot().hours(), 1e-6);
    assertEquals(1 - (cold + hot) / 22, told.fractionInTemperatureBand(), 1e-6);
    // From 95 to 70 % in 600 s: the last 240 s are below 80 %.
    assertEquals(1 + 480 / 3_600.0, told.dryHours(), 1e-6);
  }

  /**
   * From the first reading of 100 lux to the first dark one: 1,200 s at 100 and 600 s at 50 lux.
   */
  @Test
  void aLeakHasTheDoseOfItsEvent() {
    ContainerResult told = day();
    assertEquals(1, told.leaks().count());
    assertEquals((1_200 * 100 + 600 * 50) / 3_600.0, told.leaks().doseLuxHours(), 1e-6);
  }

  /**
   * Above 15 °C: 30 seeds at 25 °C for 4 days and 10 at 30 °C for 6 days; another 20 that nobody
   * looked at do not count.
   */
  @Test
  void heatUntilTheLastCheckIsThatOfEachGroupUntilItsOwn() {
    Shelf shelf = new Shelf();
    ContainerId cool = shelf.container("cool", 25);
    ContainerId warm = shelf.container("warm", 30);
    GroupId many = new GroupId(1, 1);
    GroupId few = new GroupId(1, 2);
    GroupId unseen = new GroupId(1, 3);
    List<Act.Part> parts =
        List.of(
            new Act.Part(many, cool, 30),
            new Act.Part(few, warm, 10),
            new Act.Part(unseen, warm, 20));
    SowingTimeline timeline =
        Shelf.timeline(
            List.of(
                Shelf.entry(1, 0, new Act.Sown(1, null, parts)),
                Shelf.entry(1, 4, new Act.Checked(many, 3, List.of(), 0, List.of())),
                Shelf.entry(1, 6, new Act.Checked(few, 1, List.of(), 0, List.of()))));
    HeatRule rule = new HeatRule(15, null);
    SowingResult.Heat heat = SeasonSowings.heat(timeline, new HeatPath(shelf, rule), rule);
    assertNotNull(heat);
    assertEquals((30 * 4 * 24 * 10 + 10 * 6 * 24 * 15) / 40.0, heat.degreeHours(), 1e-6);
    assertTrue(heat.gapHours() < 1e-9);
  }
}
