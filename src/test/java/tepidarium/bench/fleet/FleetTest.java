package tepidarium.bench.fleet;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Collections;
import java.util.List;
import org.junit.jupiter.api.Test;

/**
 * The simulated sites against textbook results. A machine that works for a mean time m and is then
 * repaired in a mean time r is away for the share r / (m + r) of time; two independent ones are
 * both away for its square (alternating renewal process: S. M. Ross, Introduction to Probability
 * Models, chapter 7; from memory).
 */
class FleetTest {
  private static final double NEVER = 1e12;

  /** One site on two machines which fail each ten days and are repaired in a day. */
  private static FleetPlan pair(double cutDays, double brokerMovedSeconds) {
    return new FleetPlan(
        600, 60, 1, 2, 0, 0, 50, 100, 10, 24, cutDays, 30, NEVER, brokerMovedSeconds);
  }

  @Test
  void bothMachinesAreAwayAsOftenAsTheTextbookSays() {
    Fleet fleet = new Fleet(pair(NEVER, 0), 1);
    fleet.run(200_000);
    double both = Math.pow(1.0 / 11, 2);
    // About 3,300 times both are away; each lasts about half a day: 2 % standard error.
    assertEquals(1, fleet.unowned() / both, 0.06);
  }

  @Test
  void nothingIsHeardWhileTheBrokerIsAwayAndNotReplaced() {
    double moved = 0.5 * 86_400;
    double repaired = 86_400;
    FleetPlan plan = new FleetPlan(600, 60, 1, 8, 0, 0, 50, 100, 100, 24, NEVER, 30, NEVER, moved);
    Fleet fleet = new Fleet(plan, 2);
    fleet.run(400_000);
    // The mean of an exponential time that is cut off at a limit, for each failure of the broker.
    double eachTime = repaired * (1 - Math.exp(-moved / repaired));
    assertEquals(1, fleet.unheard() / (eachTime / ((100 * 86_400) + repaired)), 0.06);
  }

  @Test
  void everyReadingIsStoredWaitsOrWasNotHeard() {
    FleetPlan plan = new FleetPlan(60_000, 60, 10, 6, 3, 3, 300, 2_000, 20, 4, 5, 30, 10, 1_800);
    Fleet fleet = new Fleet(plan, 3);
    fleet.run(2_000);
    double[] balance = fleet.balance();
    assertEquals(1, balance[1] / balance[0], 1e-9);
    assertEquals(4, fleet.outages().size());
    fleet.outages().forEach((cause, each) -> assertTrue(each.size() > 20, cause.name()));
  }

  /** A reading that was sent just after the loss waits until somebody works again, no longer. */
  @Test
  void theFirstReadingOfAnOutageIsTheLatest() {
    FleetPlan plan = new FleetPlan(600, 60, 1, 2, 0, 0, 50, 100, NEVER, 24, NEVER, 30, 1, 0);
    Fleet fleet = new Fleet(plan, 4);
    fleet.run(500);
    List<Double> outages = fleet.outages().get(LossCause.PROCESS);
    assertEquals(Collections.max(outages), fleet.longestLateness(), 1e-6);
    assertEquals(10 * Collections.max(outages), fleet.longestQueue(), 1e-6);
    assertTrue(Collections.min(outages) >= 12.2 && Collections.max(outages) <= 26.5);
  }

  /**
   * Storing 50/s, a service needs s/4 for the readings of an outage of s at 10/s and of that time.
   */
  @Test
  void whoCatchesUpStoresLateWhatComesMeanwhile() {
    FleetPlan plan = new FleetPlan(600, 60, 1, 2, 0, 0, 50, 100, NEVER, 24, NEVER, 30, 10, 0);
    Fleet fleet = new Fleet(plan, 5);
    fleet.run(20_000);
    List<Double> outages = fleet.outages().get(LossCause.PROCESS);
    // Lateness falls from s to 0 while s / (1 - 10/50) of readings are stored: evenly.
    double late = 0;
    for (double s : outages) {
      late += (s - 10) * 10 / (1 - 10.0 / 50);
    }
    assertEquals(1, fleet.laterShare(0) / (late / (10 * 20_000 * 86_400.0)), 1e-6);
  }
}
