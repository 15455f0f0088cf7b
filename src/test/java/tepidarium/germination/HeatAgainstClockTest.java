package tepidarium.germination;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Random;
import org.junit.jupiter.api.Test;
import tepidarium.germination.BaseTemperature.Verdict;
import tepidarium.stats.ConfidenceInterval;
import tepidarium.stats.NoFit;

/** Invented sowings whose truth is known. */
class HeatAgainstClockTest {
  private static final double BASE_C = 12;
  private static final Shelf.Truth TRUTH = new Shelf.Truth(BASE_C, 1_800, 0.25, 0.7);

  private final Shelf shelf = new Shelf();
  private final Random random = new Random(41);

  private HeatCounts counts(double... degrees) {
    return shelf.counts(shelf.sow(1, random, TRUTH, 80, 2, 42, degrees));
  }

  @Test
  void theMedianHeatIsFound() {
    HeatFit fit = HeatFit.of(BASE_C, counts(27, 31));
    assertTrue(fit.median().contains(TRUTH.medianHeat()), fit.toString());
    assertTrue(fit.finalFraction().contains(TRUTH.finalFraction()), fit.toString());
    assertEquals(TRUTH.medianHeat(), fit.model().medianHeat(), 0.1 * TRUTH.medianHeat());
    assertNull(fit.reason());
  }

  @Test
  void noGerminationGivesNoEstimate() {
    HeatCounts counts = counts(12.2, 12.4);
    HeatFit fit = HeatFit.of(BASE_C, counts);
    assertNull(fit.model());
    assertEquals(NoFit.NONE_GERMINATED, fit.reason());
    HeatAgainstClock compared = HeatAgainstClock.of(BASE_C, counts);
    assertEquals(Verdict.CANNOT_BE_TOLD, compared.verdict());
    assertTrue(compared.words().contains("no seed has germinated yet"), compared.words());
  }

  /** At 27 °C, 15 °C above the base, an error of 0.6 °C is one of 4 % in all heat. */
  @Test
  void anErrorOfTheSensorWidensTheInterval() {
    SowingTimeline timeline = shelf.sow(1, random, TRUTH, 80, 2, 42, 27);
    ConfidenceInterval exact = HeatFit.of(BASE_C, shelf.counts(timeline)).median();
    shelf.sensorsMayBeOffBy(0.6);
    HeatFit fit = HeatFit.of(BASE_C, shelf.counts(timeline));
    assertEquals(exact.low() * 0.96, fit.median().low(), 1e-4 * exact.low());
    assertEquals(exact.high() * 1.04, fit.median().high(), 1e-4 * exact.high());
  }

  @Test
  void aGapWidensTheIntervalUpwards() {
    SowingTimeline timeline = shelf.sow(1, random, TRUTH, 80, 2, 42, 27);
    HeatFit exact = HeatFit.of(BASE_C, shelf.counts(timeline));
    shelf.gap(shelf.container("bag-1-1", 27), Shelf.day(1), Shelf.day(2.5));
    HeatFit fit = HeatFit.of(BASE_C, shelf.counts(timeline));
    assertEquals(exact.model().medianHeat(), fit.model().medianHeat(), 1e-6);
    // 36 h: 540 °C·h at 27 °C, nothing at the least and 756 °C·h at the most.
    assertEquals(exact.median().high() + 216, fit.median().high(), 60);
    assertEquals(exact.median().low() - 540, fit.median().low(), 60);
  }

  @Test
  void germinationByHeatIsDistinguishedFromGerminationByDays() {
    HeatAgainstClock heat = HeatAgainstClock.of(BASE_C, counts(22, 24.5, 27, 29.5, 32));
    assertEquals(Verdict.HEAT, heat.verdict());
    assertEquals("The counts follow the heat better than the days.", heat.words());
    SowingTimeline byDays = shelf.sow(1, new Random(7), TRUTH, 80, 2, 42, 27);
    // The same counts, but the second lay 5 °C warmer than the days say.
    SowingTimeline twin = shelf.sow(2, new Random(7), TRUTH, 80, 2, 42, 27);
    shelf.container("bag-2-1", 32);
    HeatAgainstClock clock = HeatAgainstClock.of(BASE_C, shelf.counts(byDays, twin));
    assertEquals(Verdict.CLOCK, clock.verdict());
    assertEquals("The counts follow the days better than the heat above 12.00 °C.", clock.words());
  }

  @Test
  void sowingsAtTheSameTemperatureGiveNoVerdict() {
    SowingTimeline first = shelf.sow(1, random, TRUTH, 80, 2, 42, 30);
    SowingTimeline second = shelf.sow(2, random, TRUTH, 80, 3, 42, 30.3);
    HeatCounts counts = shelf.counts(first, second);
    HeatAgainstClock compared = HeatAgainstClock.of(BASE_C, counts);
    assertEquals(Verdict.CANNOT_BE_TOLD, compared.verdict());
    assertTrue(compared.words().contains("nearly the same heat per day"), compared.words());
    BaseTemperature base = BaseTemperature.of(counts);
    assertFalse(base.identified());
    assertEquals(NoBase.EVERY_BASE, base.reason());
    assertEquals(26, base.profile().size());
    HeatAgainstClock alone = HeatAgainstClock.of(BASE_C, shelf.counts(first));
    assertTrue(alone.words().contains("only one seed group"), alone.words());
  }

  @Test
  void uncertainEstimatesDecideNothing() {
    SowingTimeline timeline = shelf.sow(1, random, TRUTH, 80, 2, 42, 24, 28);
    assertEquals(Verdict.HEAT, HeatAgainstClock.of(BASE_C, shelf.counts(timeline)).verdict());
    shelf.gap(shelf.container("bag-1-2", 28), Shelf.day(0.1), Shelf.day(2.3));
    HeatAgainstClock unsure = HeatAgainstClock.of(BASE_C, shelf.counts(timeline));
    assertEquals(Verdict.CANNOT_BE_TOLD, unsure.verdict(), unsure.words());
    assertTrue(unsure.words().contains("the heat is too uncertain"), unsure.words());
  }

  @Test
  void theBaseIsFoundFromGroupsAtDifferentTemperatures() {
    HeatCounts counts = counts(22, 24.5, 27, 29.5, 32);
    BaseTemperature exact = BaseTemperature.of(counts);
    assertTrue(exact.identified(), String.valueOf(exact.reason()));
    assertTrue(exact.limits().contains(BASE_C), exact.limits().toString());
    assertEquals(BASE_C, exact.best().baseC(), 1.5);
    assertEquals(22, exact.profile().size(), "from 0 to 21 °C");
    double top =
        exact.profile().stream()
            .mapToDouble(BaseTemperature.Height::logLikelihood)
            .max()
            .orElseThrow();
    assertTrue(top <= exact.best().logLikelihood() + 1e-6);
    shelf.sensorsMayBeOffBy(0.4);
    SowingTimeline again = shelf.sow(1, new Random(41), TRUTH, 80, 2, 42, 22, 24.5, 27, 29.5, 32);
    BaseTemperature unsure = BaseTemperature.of(shelf.counts(again));
    assertEquals(exact.best().baseC(), unsure.best().baseC(), 0.01);
    assertEquals(exact.limits().low() - 0.4, unsure.limits().low(), 0.02);
    assertEquals(exact.limits().high() + 0.4, unsure.limits().high(), 0.02);
  }

  @Test
  void theBaseByTheRegressionOfTheRate() {
    BaseByRate found = BaseByRate.of(counts(22, 24.5, 27, 29.5, 32), null);
    assertEquals(5, found.points().size());
    assertEquals(24.5, found.points().get(1).point().temperatureC(), 1e-9);
    assertTrue(found.line().baseLimits().contains(BASE_C), found.line().toString());
    BaseByRate below = BaseByRate.of(counts(22, 24.5, 27, 29.5, 32), 29.0);
    assertEquals(3, below.points().size());
    assertNull(below.line());
    assertTrue(below.reason().endsWith("there are 3"), below.reason());
    BaseByRate close = BaseByRate.of(counts(29, 29.2, 29.4, 29.6, 29.8), null);
    assertEquals(5, close.points().size());
    assertTrue(close.reason().endsWith("there is 1"), close.reason());
  }
}
