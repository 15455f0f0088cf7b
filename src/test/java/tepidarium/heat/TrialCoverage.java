package tepidarium.heat;

import java.util.Locale;
import org.jspecify.annotations.Nullable;
import tepidarium.heat.SimulatedPlace.Truth;

/**
 * How often the stated intervals of a trial hold the truth, over simulated places. The benchmark
 * runs the large number, a test a small one.
 */
public final class TrialCoverage {
  private static final double[] TAUS = {3, 6, 10};
  private static final double[] RISES = {11, 13, 15};

  /**
   * Of how many trials the figures were told, and of how many of those the interval held the truth.
   */
  public record Tally(int trials, int told, int tau, int rise, int room) {
    double share(int held) {
      return (double) held / told;
    }

    @Override
    public String toString() {
      return String.format(
          Locale.ROOT,
          "%d trials, %d told; time constant %.1f %%, rise %.1f %%, limiting room %.1f %%",
          trials,
          told,
          100 * share(tau),
          100 * share(rise),
          100 * share(room));
    }
  }

  private TrialCoverage() {}

  /** Runs so many trials from a seed of the generator. */
  public static Tally run(int trials, long seed) {
    int told = 0;
    int tau = 0;
    int rise = 0;
    int room = 0;
    for (int i = 0; i < trials; i++) {
      Truth truth = Truth.plain(TAUS[i % TAUS.length], RISES[i / TAUS.length % RISES.length]);
      PlaceTrial trial = new SimulatedPlace(truth, seed + i).trial(null);
      if (trial.outcome() == PlaceTrial.FitStatus.DETERMINED) {
        told++;
        tau += holds(trial.tauHours(), truth.tauHours()) ? 1 : 0;
        rise += holds(trial.riseC(), truth.riseC()) ? 1 : 0;
        double limit = SimulatedPlace.LOW_C - truth.riseC();
        room += trial.low() != null && holds(trial.low().roomC(), limit) ? 1 : 0;
      }
    }
    return new Tally(trials, told, tau, rise, room);
  }

  static boolean holds(PlaceTrial.@Nullable TrialEstimate figure, double truth) {
    return figure != null && figure.low() <= truth && truth <= figure.high();
  }
}
