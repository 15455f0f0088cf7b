package tepidarium.app.demo;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.time.Duration;
import java.time.Instant;
import java.time.ZoneId;
import java.util.List;
import java.util.Objects;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import tepidarium.container.Band;
import tepidarium.container.ContainerId;
import tepidarium.heat.BenchFinding;
import tepidarium.heat.BenchPlace;
import tepidarium.heat.DegreeHours;
import tepidarium.heat.HeatBench;
import tepidarium.heat.HeatBench.Pair;
import tepidarium.heat.HeatBench.Side;
import tepidarium.heat.HeatHours;
import tepidarium.heat.HeatRule;
import tepidarium.heat.HeatSum;
import tepidarium.heat.LocalHours;
import tepidarium.heat.PlaceTrial;
import tepidarium.heat.PlaceTrial.TrialEstimate;
import tepidarium.heat.SensorError;
import tepidarium.heat.TemperatureHistogram;
import tepidarium.reading.Quantity;
import tepidarium.reading.Reading;
import tepidarium.reading.Samples;
import tepidarium.reading.Span;
import tepidarium.reading.TimeWeighted;

/**
 * The heat bench tells the demo's truth: the cupboard is colder than the mat, the two trays on the
 * mat are equally warm, the shelves of the cupboard are half a degree apart, and the box on trial
 * follows its equation.
 */
class GardenBenchTest {
  private static final ZoneId ZONE = ZoneId.of("Asia/Kolkata");
  private static final Duration MAX_GAP = Duration.ofMinutes(30);
  private static final HeatRule RULE = new HeatRule(15, null);

  private static Garden garden;
  private static LocalHours hours;

  @BeforeAll
  static void createGarden() {
    Instant now = Instant.parse("2026-02-20T13:30:00Z");
    garden = Garden.of(new DemoCalendar(now, ZONE));
    hours = LocalHours.of(new Span(garden.calendar().start(), now), ZONE);
  }

  private static Samples temperature(SimulatedSensor sensor, Span span) {
    List<Reading> readings = sensor.times(span).stream().map(sensor::reading).toList();
    Samples.Builder samples = new Samples.Builder(readings.size());
    for (Reading reading : readings) {
      double read = Objects.requireNonNull(reading.value(Quantity.TEMPERATURE));
      samples.add(reading.at().toEpochMilli(), read - sensor.temperatureBiasC());
    }
    return samples.build();
  }

  private static BenchPlace place(SimulatedContainer container) {
    Samples samples = temperature(container.sensors().get(0), hours.span());
    HeatHours columns = new HeatHours(hours);
    long start = hours.span().fromMs();
    for (int i = 0; i < hours.count(); i++) {
      Span hour =
          Span.ofMillis(start + i * LocalHours.HOUR_MS, start + (i + 1) * LocalHours.HOUR_MS);
      HeatSum heat = DegreeHours.of(samples, hour, RULE, MAX_GAP);
      SensorError sensor = TemperatureHistogram.of(samples, hour, MAX_GAP).sensorError(RULE, 0.1);
      TimeWeighted course = TimeWeighted.of(samples, hour, MAX_GAP);
      columns.add(hour.fromMs(), heat, 0, course, sensor);
    }
    String id = container.sensors().get(0).id().name();
    return new BenchPlace(new ContainerId(id), container.name(), columns, List.of(), null);
  }

  private static Side source(String heatSource) {
    List<BenchPlace> places =
        garden.containers().stream()
            .filter(container -> container.heatSource().equals(heatSource))
            .map(GardenBenchTest::place)
            .toList();
    return new Side(heatSource, heatSource, true, places);
  }

  private static SimulatedContainer container(String name) {
    return garden.containers().stream()
        .filter(p -> p.name().equals(name))
        .findFirst()
        .orElseThrow();
  }

  private static Side side(String name) {
    return new Side(name, name, false, List.of(place(container(name))));
  }

  private static Pair pair(Side a, Side b) {
    return HeatBench.compare(hours, List.of(a, b)).pairs().get(0);
  }

  @Test
  void theCupboardIsFoundToGiveLessHeatThanTheMat() {
    Pair pair = pair(source("airing cupboard"), source("heat mat"));
    assertEquals(BenchFinding.LESS, pair.finding(), BenchFinding.words(pair));
    assertNotNull(pair.figures().degreeHoursPerDay());
    double perDay = pair.figures().degreeHoursPerDay().value();
    assertTrue(perDay > -24 && perDay < -8, BenchFinding.words(pair));
    assertEquals(4, pair.first().side().places().size());
    assertNotNull(pair.first().spreadC());
    assertEquals(0.5, pair.first().spreadC().value(), 0.05);
  }

  @Test
  void noDifferenceIsFoundBetweenTheTwoTrays() {
    Pair pair = pair(side("Lychee tray A"), side("Lychee tray B"));
    assertTrue(
        pair.finding() == BenchFinding.NONE_SHOWN
            || pair.finding() == BenchFinding.WITHIN_SENSOR_ERROR,
        BenchFinding.words(pair));
    assertNotNull(pair.figures().degreeHoursPerDay());
    assertEquals(0, pair.figures().degreeHoursPerDay().value(), 0.3, BenchFinding.words(pair));
    assertTrue(pair.hours() > 27 * 24 - 10, "only " + pair.hours());
  }

  @Test
  void theBoxOnTrialShowsItsTimeConstantAndItsRise() {
    Instant now = garden.calendar().now();
    Span trial = new Span(now.minus(Duration.ofDays(2)), now);
    PlaceTrial told =
        PlaceTrial.of(
            temperature(container("Trial box").sensors().get(0), trial),
            temperature(garden.room(), trial),
            trial,
            MAX_GAP,
            new PlaceTrial.Question(Band.DEFAULT.temperatureLowC(), null, 0.2));
    assertEquals(PlaceTrial.FitStatus.DETERMINED, told.outcome());
    assertHolds(told.tauHours(), SimulatedTemperatures.LAMP_TAU_HOURS, 0.3);
    assertHolds(told.riseC(), SimulatedTemperatures.LAMP_RISE_C, 0.05);
    assertNotNull(told.low());
    assertHolds(told.low().roomC(), 16, 0.05);
  }

  /** Ten readings an hour of a tenth of a degree leave that much room beside the interval. */
  private static void assertHolds(@Nullable TrialEstimate figure, double truth, double beside) {
    assertNotNull(figure);
    assertTrue(
        figure.low() - beside <= truth && truth <= figure.high() + beside,
        truth + " is not in " + figure);
  }
}
