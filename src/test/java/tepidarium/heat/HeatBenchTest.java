package tepidarium.heat;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotNull;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.time.Instant;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.List;
import java.util.SplittableRandom;
import java.util.function.IntPredicate;
import java.util.function.IntToDoubleFunction;
import org.junit.jupiter.api.Test;
import tepidarium.container.ContainerId;
import tepidarium.heat.HeatBench.ComparedSide;
import tepidarium.heat.HeatBench.Comparison;
import tepidarium.heat.HeatBench.Pair;
import tepidarium.heat.HeatBench.Side;
import tepidarium.reading.Span;
import tepidarium.reading.TimeWeighted;
import tepidarium.stats.AutocorrelatedMean.Estimate;

class HeatBenchTest {
  /** Of an hour between base and ceiling whose sensor may be off by 0.1 °C. */
  private static final SensorError SENSOR = new SensorError(0.1, 0.1);

  private static final double BASE_C = 15;
  private static final ZoneId BERLIN = ZoneId.of("Europe/Berlin");
  private static final Instant START = Instant.parse("2026-03-10T00:00:00Z");

  private static LocalHours hours(int days) {
    return LocalHours.of(new Span(START, START.plusSeconds(days * 86_400L)), ZoneId.of("UTC"));
  }

  /**
   * A place with one temperature in each hour, measured throughout in those hours that are told.
   */
  private static BenchPlace place(
      String name, LocalHours hours, IntToDoubleFunction temperatureC, IntPredicate told) {
    HeatHours columns = new HeatHours(hours);
    for (int i = 0; i < hours.count(); i++) {
      if (told.test(i)) {
        double now = temperatureC.applyAsDouble(i);
        HeatSum heat = new HeatSum(now - BASE_C, 1, LocalHours.HOUR_MS, 0, 0);
        long start = hours.span().fromMs() + i * LocalHours.HOUR_MS;
        columns.add(start, heat, 0, course(LocalHours.HOUR_MS, now, 0.2), SENSOR);
      }
    }
    return new BenchPlace(new ContainerId(name), name, columns, List.of(), null);
  }

  private static TimeWeighted course(long coveredMs, double meanC, double eitherSideC) {
    return new TimeWeighted(coveredMs, meanC, 0, meanC - eitherSideC, meanC + eitherSideC);
  }

  private static BenchPlace place(String name, LocalHours hours, IntToDoubleFunction temperatureC) {
    return place(name, hours, temperatureC, hour -> true);
  }

  private static Side container(BenchPlace place) {
    return new Side(place.name(), place.name(), false, List.of(place));
  }

  private static IntToDoubleFunction noisy(double meanC, long seed) {
    SplittableRandom random = new SplittableRandom(seed);
    double[] noise = random.doubles(24 * 400).map(even -> (even - 0.5) * 0.4).toArray();
    return hour -> meanC + Math.sin(hour / 24.0 * 2 * Math.PI) + noise[hour];
  }

  private static Pair pair(LocalHours hours, Side a, Side b) {
    return HeatBench.compare(hours, List.of(a, b)).pairs().get(0);
  }

  private static Estimate heat(Pair pair) {
    Estimate heat = pair.figures().degreeHoursPerDay();
    assertNotNull(heat);
    return heat;
  }

  @Test
  void aWarmerPlaceIsFoundAndTheSignIsRight() {
    LocalHours hours = hours(14);
    Side warm = container(place("warm", hours, noisy(31.5, 1)));
    Side cool = container(place("cool", hours, noisy(30.5, 2)));
    Pair pair = pair(hours, warm, cool);
    assertEquals(24, heat(pair).value(), 0.6);
    assertEquals(BenchFinding.MORE, pair.finding());
    Pair turned = pair(hours, cool, warm);
    assertEquals(BenchFinding.LESS, turned.finding());
    assertEquals(14 * 24, pair.hours());
    assertTrue(BenchFinding.words(pair).startsWith("warm gave 2"), BenchFinding.words(pair));
    assertTrue(BenchFinding.words(pair).endsWith(" °C·h a day more than cool."));
    assertEquals(BenchFinding.words(pair), BenchFinding.words(turned));
  }

  @Test
  void equalPlacesShowNoDifference() {
    LocalHours hours = hours(14);
    Pair pair =
        pair(
            hours,
            container(place("a", hours, noisy(31, 1))),
            container(place("b", hours, noisy(31, 2))));
    assertEquals(BenchFinding.NONE_SHOWN, pair.finding());
    assertTrue(BenchFinding.words(pair).startsWith("No clear difference in heat between a and b"));
    assertTrue(BenchFinding.words(pair).contains("can hide a difference of up to 4.8 °C·h a day"));
  }

  /** Of equal places one pair in twenty would seem to differ, were chance all that is asked. */
  @Test
  void falsePositivesAreRare() {
    LocalHours hours = hours(10);
    int beyondChance = 0;
    for (int i = 0; i < 200; i++) {
      BenchPlace a = place("a", hours, noisy(31, 2L * i));
      BenchPlace b = place("b", hours, noisy(31, 2L * i + 1));
      Pair pair = pair(hours, container(a), container(b));
      assertTrue(
          pair.finding() == BenchFinding.NONE_SHOWN
              || pair.finding() == BenchFinding.WITHIN_SENSOR_ERROR);
      beyondChance += heat(pair).differsFromZero(0) ? 1 : 0;
    }
    assertTrue(beyondChance >= 1 && beyondChance <= 22, beyondChance + " of 200");
  }

  @Test
  void aDifferenceWithinTheSensorErrorIsNotAttributedToThePlaces() {
    LocalHours hours = hours(14);
    Pair pair =
        pair(
            hours,
            container(place("a", hours, noisy(31.15, 1))),
            container(place("b", hours, noisy(31, 2))));
    assertEquals(BenchFinding.WITHIN_SENSOR_ERROR, pair.finding());
    assertEquals(24 * 0.2, pair.sensorErrorPerDay(), 1e-9);
    assertTrue(BenchFinding.words(pair).contains("Swap the sensor of a with that of b, and"));
  }

  @Test
  void onlyHoursOfBothCount() {
    LocalHours hours = hours(20);
    // The first was measured through a cold night that the second missed.
    BenchPlace a = place("a", hours, hour -> hour < 48 ? 20 : 31);
    BenchPlace b = place("b", hours, hour -> 31, hour -> hour >= 48);
    Pair pair = pair(hours, container(a), container(b));
    assertEquals(18 * 24, pair.hours());
    assertEquals(0, heat(pair).value(), 1e-9);
    assertEquals(BenchFinding.NONE_SHOWN, pair.finding());
  }

  @Test
  void tooFewHoursGiveNoVerdict() {
    LocalHours hours = hours(3);
    Pair pair =
        pair(
            hours,
            container(place("a", hours, noisy(34, 1))),
            container(place("b", hours, noisy(28, 2))));
    assertEquals(BenchFinding.CANNOT_TELL, pair.finding());
    assertTrue(BenchFinding.words(pair).contains("72 were measured in both"));
    Pair none =
        pair(
            hours,
            container(place("a", hours, hour -> 30, hour -> hour < 30)),
            container(place("b", hours, hour -> 30, hour -> hour >= 30)));
    assertEquals(BenchFinding.CANNOT_TELL, none.finding());
    assertEquals(0, none.hours());
  }

  private static Side source(LocalHours hours, String name, double... meansC) {
    List<BenchPlace> places = new ArrayList<>();
    for (double meanC : meansC) {
      int number = places.size();
      places.add(place(name + "-" + number, hours, noisy(meanC, name.hashCode() + number)));
    }
    return new Side(name, name, true, places);
  }

  @Test
  void betweenSourcesTheContainerIsTheUnit() {
    LocalHours hours = hours(14);
    Pair clear =
        pair(hours, source(hours, "mat", 32, 32.1, 32), source(hours, "shelf", 30, 30.1, 29.9));
    assertEquals(BenchFinding.MORE, clear.finding());
    assertTrue(
        BenchFinding.words(clear)
            .endsWith("With 3 and 3 containers that can still be chance: add a container to each."),
        BenchFinding.words(clear));
    Pair mixed = pair(hours, source(hours, "mat", 32, 29.5), source(hours, "shelf", 30, 30.1));
    assertTrue(heat(mixed).differsFromZero(mixed.sensorErrorPerDay()), heat(mixed).toString());
    assertEquals(BenchFinding.ONLY_THESE_CONTAINERS, mixed.finding());
    Pair single = pair(hours, source(hours, "mat", 32), source(hours, "shelf", 30, 30.1));
    assertEquals(BenchFinding.ONLY_THESE_CONTAINERS, single.finding());
    assertNull(single.between());
    assertTrue(
        BenchFinding.words(single).endsWith("add a container to mat."), BenchFinding.words(single));
    Pair many =
        pair(
            hours,
            source(hours, "mat", 32, 32.1, 32, 32.1),
            source(hours, "shelf", 30, 30.1, 29.9, 30));
    assertTrue(
        BenchFinding.words(many)
            .endsWith("With 4 and 4 containers, chance alone does that in 2.9 of 100 cases."),
        BenchFinding.words(many));
  }

  @Test
  void theSpreadOfAShelfIsThatOfItsPlaces() {
    LocalHours hours = hours(14);
    ComparedSide told =
        HeatBench.compare(
                hours, List.of(source(hours, "shelf", 30, 30.4, 30.9), source(hours, "mat", 31)))
            .sides()
            .get(0);
    assertNotNull(told.spreadC());
    assertEquals(0.9, told.spreadC().value(), 0.05);
    assertEquals(3, told.side().places().size());
  }

  @Test
  void aContainerWithFewHoursDoesNotSilenceItsSource() {
    LocalHours hours = hours(14);
    BenchPlace late = place("late", hours, hour -> 30, hour -> hour > 13 * 24);
    List<BenchPlace> places = List.of(place("whole", hours, hour -> 30), late);
    Side shelf = new Side("shelf", "shelf", true, places);
    ComparedSide told =
        HeatBench.compare(hours, List.of(shelf, source(hours, "mat", 31))).sides().get(0);
    assertEquals(List.of(late), told.leftOut());
    assertEquals(14 * 24, told.hours());
  }

  @Test
  void nightFloorSwingAndProfileFollowTheLocalClock() {
    // Berlin is an hour ahead of UTC: coldest from 3 to 4 there is from 2 to 3 in UTC.
    LocalHours hours = LocalHours.of(new Span(START, START.plusSeconds(10 * 86_400L)), BERLIN);
    BenchPlace place = place("a", hours, hour -> hour % 24 == 2 ? 25 : hour % 24 == 13 ? 35 : 30);
    ComparedSide told =
        HeatBench.compare(hours, List.of(container(place), container(place))).sides().get(0);
    assertNotNull(told.figures().nightFloorC());
    assertEquals(24.8, told.figures().nightFloorC().value(), 1e-9);
    assertNotNull(told.figures().dailySwingC());
    assertEquals(10.4, told.figures().dailySwingC().value(), 1e-9);
    // Of 24 hours, one is 5 °C colder and one 5 °C warmer than the mean.
    assertEquals(Math.sqrt(2 * 25 / 24.0), told.variationC(), 1e-9);
    assertEquals(25, told.profileC()[3], 1e-9);
    assertEquals(35, told.profileC()[14], 1e-9);
    assertEquals(30, told.profileC()[2], 1e-9);
  }

  @Test
  void anHourThatIsHalfCoveredDoesNotCount() {
    LocalHours hours = hours(1);
    HeatHours columns = new HeatHours(hours);
    long half = LocalHours.HOUR_MS / 2;
    columns.add(
        START.toEpochMilli(), new HeatSum(8, 0.5, half, half, 0), 0, course(half, 31, 0), SENSOR);
    assertEquals(0, columns.count());
    long most = LocalHours.HOUR_MS * 3 / 4;
    columns.add(
        START.toEpochMilli(),
        new HeatSum(12, 0.75, most, half / 2, 0),
        0,
        course(most, 31, 0),
        SENSOR);
    assertEquals(1, columns.count());
  }

  @Test
  void manyPairsAreCountedOut() {
    LocalHours hours = hours(14);
    Comparison three =
        HeatBench.compare(
            hours,
            List.of(
                container(place("a", hours, noisy(31, 1))),
                container(place("b", hours, noisy(31, 2))),
                container(place("c", hours, noisy(32, 3)))));
    assertEquals(3, three.pairs().size());
    assertTrue(BenchFinding.words(three).startsWith("2 of 3 pairs differ"));
  }
}
