package tepidarium.germination;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import tepidarium.stats.Censored;
import tepidarium.stats.IntervalFit;
import tepidarium.stats.Posterior;
import tepidarium.stats.TimeFamily;
import tepidarium.stats.TimeModel;

class ProspectTest {
  private static final double NEVER = Double.POSITIVE_INFINITY;

  /** Most came in the third and fourth week; then fewer and fewer. */
  private static final List<Censored> DONE =
      List.of(
          new Censored(14, 21, 12),
          new Censored(21, 28, 20),
          new Censored(28, 35, 7),
          new Censored(35, 42, 1),
          new Censored(70, NEVER, 60));

  private static final IntervalFit PAST =
      IntervalFit.of(new TimeModel(TimeFamily.LOGNORMAL, true), DONE);

  private static final List<Censored> UNDER_WAY =
      List.of(
          new Censored(14, 21, 12),
          new Censored(21, 28, 20),
          new Censored(28, 35, 17),
          new Censored(35, NEVER, 51));

  private static Optional<Prospect> prospect(
      List<Censored> rows, double now, int remaining, List<IntervalFit> past) {
    List<Prospect.Remaining> seeds = List.of(new Prospect.Remaining(now, remaining));
    return Prospect.of(
        rows, seeds, now + 7, family -> family == TimeFamily.LOGNORMAL ? past : List.of());
  }

  private static Prospect prospect(List<Censored> rows, double now, int remaining) {
    return prospect(rows, now, remaining, List.of()).orElseThrow();
  }

  @Test
  void aFinishedSowingIsDistinguishedFromARunningOne() {
    Prospect over = prospect(DONE, 70, 60);
    assertTrue(over.soon() < 0.05, over.toString());
    assertTrue(over.ever() < 0.2, over.toString());
    Prospect going = prospect(UNDER_WAY, 35, 51);
    assertTrue(going.soon() > 0.95, going.toString());
    assertTrue(going.expectedMore() > 1, going.toString());
    for (Prospect p : List.of(over, going)) {
      assertTrue(p.soon() <= p.ever());
      assertTrue(p.soonLimits().low() <= p.soonLimits().high());
      assertTrue(p.everLimits().contains(p.ever()));
      assertTrue(p.assumption().contains("Only the counts of this sowing"), p.assumption());
    }
  }

  @Test
  void fewerSeedsGiveFewerExpectedGerminations() {
    double many = prospect(UNDER_WAY, 35, 51).soon();
    double one = prospect(UNDER_WAY, 35, 1).soon();
    assertTrue(one < many);
    assertTrue(one > 0);
    assertEquals(0, prospect(UNDER_WAY, 35, 0).ever());
  }

  @Test
  void withoutCountsOnlyPastSowingsGiveAForecast() {
    List<Censored> nothing = List.of(new Censored(21, NEVER, 40));
    assertTrue(prospect(nothing, 21, 40, List.of()).isEmpty());
    Prospect early = prospect(nothing, 21, 40, List.of(PAST, PAST)).orElseThrow();
    assertTrue(early.ever() > 0.5, early.toString());
    assertTrue(early.assumption().contains("past sowings (2)"), early.assumption());
    List<Censored> late = List.of(new Censored(90, NEVER, 40));
    Prospect hopeless = prospect(late, 90, 40, List.of(PAST, PAST)).orElseThrow();
    assertTrue(hopeless.soon() < early.soon());
    assertTrue(hopeless.ever() < 0.5, hopeless.toString());
  }

  @Test
  void theSameCountsGiveTheSameAnswer() {
    assertEquals(prospect(UNDER_WAY, 35, 51), prospect(UNDER_WAY, 35, 51));
    assertThrows(IllegalArgumentException.class, () -> prospect(UNDER_WAY, -1, 51));
    List<Prospect.Remaining> later = List.of(new Prospect.Remaining(50, 51));
    assertThrows(
        IllegalArgumentException.class,
        () -> Prospect.of(UNDER_WAY, later, 42, family -> List.of()));
  }

  private static HeatForecast.Branch branch(List<Censored> rows, double now, double rate) {
    Posterior fit = Posterior.of(TimeFamily.LOGNORMAL, rows, null).orElseThrow();
    return new HeatForecast.Branch(1, fit, now, now, rate, rate);
  }

  /** The same counts, with a day of 15 °C·h for each unit. */
  @Test
  void theNextTenthComesAsTheHeatComesIn() {
    HeatForecast slow = HeatForecast.of(51, List.of(branch(UNDER_WAY, 35, 0.05))).orElseThrow();
    HeatForecast fast = HeatForecast.of(51, List.of(branch(UNDER_WAY, 35, 0.1))).orElseThrow();
    assertEquals(6, slow.seeds());
    assertEquals(slow.hours() / 2, fast.hours(), 0.05);
    assertTrue(slow.earliestHours() < slow.hours());
    slow.latestHours().ifPresent(latest -> assertTrue(latest > slow.hours()));
    Posterior fit = Posterior.of(TimeFamily.LOGNORMAL, UNDER_WAY, null).orElseThrow();
    HeatForecast unsure =
        HeatForecast.of(51, List.of(new HeatForecast.Branch(1, fit, 35, 35, 0.04, 0.06)))
            .orElseThrow();
    assertTrue(unsure.earliestHours() < slow.earliestHours());
    assertEquals(slow.hours(), unsure.hours(), 0.05);
  }

  @Test
  void aFinishedSowingHasNoForecast() {
    assertTrue(HeatForecast.of(60, List.of(branch(DONE, 70, 0.05))).isEmpty());
    assertTrue(HeatForecast.of(51, List.of(branch(UNDER_WAY, 35, 0))).isEmpty());
  }
}
