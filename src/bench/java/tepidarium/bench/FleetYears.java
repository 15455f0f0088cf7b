package tepidarium.bench;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Locale;
import tepidarium.bench.fleet.Fleet;
import tepidarium.bench.fleet.FleetPlan;

/**
 * Years of a million sensors over 30 machines that fail, simulated: how long sites are without a
 * service, and how late readings are stored. Nothing is measured here; the assumptions are in
 * {@code src/docs/scale.md}.
 */
final class FleetYears {
  private static final long SEED = 20_260_301;
  private static final double DAYS = 365;

  /** A lost broker is replaced by hand, or by one that stands ready. */
  private static final double BY_HAND = 1_800;

  private static final double BY_ITSELF = 30;

  private static final FleetPlan PLAN =
      new FleetPlan(1_000_000, 60, 100, 18, 3, 9, 5_000, 27_700, 365, 4, 60, 30, 30, BY_HAND);

  private final int years;

  FleetYears(int years) {
    this.years = years;
  }

  void run(Report report) {
    Fleet fleet = simulated(PLAN);
    fleet
        .outages()
        .forEach(
            (cause, seconds) ->
                report.figure(
                    "take-overs of sites, simulated, after loss of the "
                        + cause.name().toLowerCase(Locale.ROOT),
                    "",
                    times(seconds)));
    report.figure(
        "time in which nobody worked for a site, simulated", "", perMillion(fleet.unowned()));
    tell(report, "broker replaced after 30 min", fleet);
    tell(report, "broker replaced after 30 s", simulated(PLAN.withBrokerMoved(BY_ITSELF)));
  }

  private Fleet simulated(FleetPlan plan) {
    Fleet fleet = new Fleet(plan, SEED);
    fleet.run(years * DAYS);
    return fleet;
  }

  private static void tell(Report report, String broker, Fleet fleet) {
    String which = ", simulated, " + broker;
    report.figure(
        "readings sent while the broker was away" + which, "", perMillion(fleet.unheard()));
    List<String> later = new ArrayList<>();
    for (String limit : List.of("10 s", "1 min", "5 min", "1 h")) {
      later.add(perMillion(fleet.laterShare(later.size())) + " over " + limit);
    }
    report.figure(
        "readings stored late" + which,
        "",
        String.join(", ", later) + "; at most " + longest(fleet));
    report.figure(
        "longest queue of a site" + which, "", Report.figure(fleet.longestQueue()) + " readings");
  }

  private static String longest(Fleet fleet) {
    return Report.figure(fleet.longestLateness()) + " s";
  }

  private String times(List<Double> seconds) {
    List<Double> sorted = new ArrayList<>(seconds);
    Collections.sort(sorted);
    return String.format(
        Locale.ROOT,
        "%.1f a year; half within %.1f s, 99 of 100 within %.1f s, longest %.1f s",
        sorted.size() / (double) years,
        sorted.get((sorted.size() - 1) / 2),
        sorted.get((int) Math.ceil(0.99 * sorted.size()) - 1),
        sorted.get(sorted.size() - 1));
  }

  private static String perMillion(double share) {
    return String.format(Locale.ROOT, "%.2f per million", share * 1e6);
  }
}
