package tepidarium.germination;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import tepidarium.germination.ThermalTime.HeatInterval;
import tepidarium.stats.Censored;
import tepidarium.stats.IntervalFit;
import tepidarium.stats.IntervalFit.Parameter;
import tepidarium.stats.TimeFamily;
import tepidarium.stats.TimeModel;

/**
 * How often 95 % intervals hold the truth, on invented sowings whose truth is known: base 12 °C,
 * 1800 °C·h for half of those that germinate, σ 0.25, and 70 % that ever do, in five containers of
 * 60 seeds from 22 to 32 °C. The benchmark runs many rounds, the unit tests a few.
 */
public final class CoverageSimulation {
  private static final double BASE_C = 12;
  private static final double MEDIAN_HEAT = 1_800;
  private static final double SIGMA = 0.25;
  private static final double FRACTION = 0.7;
  private static final double[] TEMPERATURES_C = {22, 24.5, 27, 29.5, 32};
  private static final int SEEDS = 60;
  private static final double LAST_HOURS = 24 * 42;

  /** In how many rounds each interval held the truth. */
  public record Coverage(int rounds, int base, int mu, int sigma, int fraction, int identified) {}

  private CoverageSimulation() {}

  /** Runs so many rounds from a seed of the generator. */
  public static Coverage run(int rounds, long seed) {
    Random random = new Random(seed);
    int base = 0;
    int mu = 0;
    int sigma = 0;
    int fraction = 0;
    int identified = 0;
    for (int round = 0; round < rounds; round++) {
      List<List<Censored>> sowings = new ArrayList<>();
      for (double temperature : TEMPERATURES_C) {
        sowings.add(sowing(random, temperature));
      }
      BaseTemperature found =
          BaseTemperature.of(b -> heat(sowings, b), BASE_C - 10, BASE_C + 9, true);
      identified += found.identified() ? 1 : 0;
      base += found.limits().contains(BASE_C) ? 1 : 0;
      IntervalFit fit =
          IntervalFit.of(new TimeModel(TimeFamily.LOGNORMAL, true), rows(heat(sowings, BASE_C)));
      mu += fit.interval(Parameter.MU).contains(Math.log(MEDIAN_HEAT)) ? 1 : 0;
      sigma += fit.interval(Parameter.SIGMA).contains(SIGMA) ? 1 : 0;
      fraction += fit.interval(Parameter.FINAL_FRACTION).contains(FRACTION) ? 1 : 0;
    }
    return new Coverage(rounds, base, mu, sigma, fraction, identified);
  }

  private static List<Censored> sowing(Random random, double temperatureC) {
    List<Censored> rows = new ArrayList<>();
    double every = 48;
    for (int seed = 0; seed < SEEDS; seed++) {
      double heat = MEDIAN_HEAT * Math.exp(SIGMA * random.nextGaussian());
      double hours = heat / (temperatureC - BASE_C);
      boolean never = random.nextDouble() >= FRACTION || hours > LAST_HOURS;
      double left = Math.floor(hours / every) * every;
      rows.add(
          never
              ? new Censored(LAST_HOURS, Double.POSITIVE_INFINITY, 1)
              : new Censored(left, left + every, 1));
    }
    return rows;
  }

  private static List<HeatInterval> heat(List<List<Censored>> sowings, double baseC) {
    List<HeatInterval> heat = new ArrayList<>();
    for (int i = 0; i < TEMPERATURES_C.length; i++) {
      for (Censored row : sowings.get(i)) {
        heat.add(HeatInterval.atConstant(row, TEMPERATURES_C[i], baseC));
      }
    }
    return heat;
  }

  private static List<Censored> rows(List<HeatInterval> heat) {
    return heat.stream().map(i -> new Censored(i.from(), i.to(), i.count())).toList();
  }
}
