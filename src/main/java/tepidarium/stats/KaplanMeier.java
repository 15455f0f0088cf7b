package tepidarium.stats;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.OptionalDouble;
import org.apache.commons.statistics.distribution.NormalDistribution;

/**
 * The Kaplan-Meier survival curve, for times that are exact or right-censored. Counts at checks are
 * interval-censored: use it only at check times shared by all, or use {@link Turnbull}. Source:
 * Kaplan and Meier, Journal of the American Statistical Association 53 (1958) 457-481; standard
 * error after Greenwood (1926).
 *
 * @param steps one step for each event time, in order
 */
public record KaplanMeier(List<Step> steps) {
  private static final double Z =
      NormalDistribution.of(0, 1).inverseCumulativeProbability((1 + ConfidenceInterval.LEVEL) / 2);

  /**
   * An exact event time if {@code met}, otherwise a right-censored time.
   *
   * @param time above or equal to 0
   */
  public record Observed(double time, boolean met) {}

  /**
   * A step of the curve.
   *
   * @param survival fraction surviving after it, 0 to 1
   * @param error Greenwood's standard error of the survival; NaN if the survival is 0
   */
  public record Step(double time, int atRisk, int events, double survival, double error) {
    /** The 95 % interval on the scale of ln S, at most 1. Requires a survival above 0. */
    public ConfidenceInterval logLimits() {
      double relative = Z * error / survival;
      return new ConfidenceInterval(
          survival * Math.exp(-relative), Math.min(1, survival * Math.exp(relative)));
    }

    /** The 95 % interval on the scale of ln(−ln S). Requires a survival above 0. */
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

  /** The median: the first time with a survival of at most one half; empty if there is none. */
  public OptionalDouble median() {
    return steps.stream()
        .filter(s -> s.survival() <= 0.5 + 1e-12)
        .mapToDouble(Step::time)
        .findFirst();
  }
}
