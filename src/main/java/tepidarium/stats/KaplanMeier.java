package tepidarium.stats;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.OptionalDouble;
import org.apache.commons.statistics.distribution.NormalDistribution;

/**
 * The part that has not met its event, for times that are known exactly or only from below. Counts
 * at checks are not such times: use it at check times that all share, or see {@link Turnbull}.
 * Source: Kaplan and Meier, Journal of the American Statistical Association 53 (1958) 457-481;
 * standard error after Greenwood (1926).
 *
 * @param steps one for each time at which an event happened, in order
 */
public record KaplanMeier(List<Step> steps) {
  private static final double Z =
      NormalDistribution.of(0, 1).inverseCumulativeProbability((1 + ConfidenceInterval.LEVEL) / 2);

  /**
   * A time known exactly where {@code met}, else only that it is later.
   *
   * @param time above or equal to 0
   */
  public record Observed(double time, boolean met) {}

  /**
   * A fall of the curve.
   *
   * @param survival the part left after it, 0 to 1
   * @param error Greenwood's standard error of it; not a number once nobody is left
   */
  public record Step(double time, int atRisk, int events, double survival, double error) {
    /** At 95 % on the scale of the logarithm, cut off at 1; not to be used once nobody is left. */
    public ConfidenceInterval logLimits() {
      double relative = Z * error / survival;
      return new ConfidenceInterval(
          survival * Math.exp(-relative), Math.min(1, survival * Math.exp(relative)));
    }

    /** At 95 % on the scale of ln(−ln S); not to be used once nobody is left. */
    public ConfidenceInterval logLogLimits() {
      double log = Math.log(survival);
      double factor = Math.exp(Z * error / survival / Math.abs(log));
      return new ConfidenceInterval(Math.exp(log * factor), Math.exp(log / factor));
    }
  }

  public KaplanMeier {
    steps = List.copyOf(steps);
  }

  public static KaplanMeier of(List<Observed> all) {
    List<Observed> sorted =
        all.stream().sorted(Comparator.comparingDouble(Observed::time)).toList();
    List<Step> steps = new ArrayList<>();
    double survival = 1;
    double sum = 0;
    for (int i = 0; i < sorted.size(); ) {
      double time = sorted.get(i).time();
      int atRisk = sorted.size() - i;
      int events = 0;
      for (; i < sorted.size() && sorted.get(i).time() == time; i++) {
        events += sorted.get(i).met() ? 1 : 0;
      }
      if (events > 0) {
        survival *= 1 - (double) events / atRisk;
        sum += (double) events / atRisk / (atRisk - events);
        steps.add(new Step(time, atRisk, events, survival, survival * Math.sqrt(sum)));
      }
    }
    return new KaplanMeier(steps);
  }

  /** The first time at which half or less is left; none where more than half is left at the end. */
  public OptionalDouble median() {
    return steps.stream()
        .filter(s -> s.survival() <= 0.5 + 1e-12)
        .mapToDouble(Step::time)
        .findFirst();
  }
}
