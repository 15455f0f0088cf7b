package tepidarium.stats;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.ConcurrentHashMap;
import org.jspecify.annotations.Nullable;

/**
 * Fits a model of times to interval-censored rows by maximum likelihood. Rows that are
 * right-censored at 0 have no information and are ignored. If the likelihood has no maximum inside
 * the parameter space, or is flat, the fit is not identified: it has a reason and no estimate.
 */
public final class IntervalFit {
  /** Half the 95 % quantile of χ² with one degree of freedom. */
  private static final double PROFILE_DROP = 1.920729410347062;

  private static final double ROOT_DROP = Math.sqrt(2 * PROFILE_DROP);

  private static final double NEAR_BOUND = 0.995;

  /**
   * Start of a search: the logit of a fraction of 0.95, because the gradient vanishes near the
   * bound of 1.
   */
  private static final double START_LOGIT = 3;

  /** The logit of a fraction of 0.9997, used as the bound of 1. */
  static final double BOUND_LOGIT = 8;

  /** A median above this multiple of the last check is not reported; common practice, no source. */
  private static final double MAX_MEDIAN_RATIO = 2;

  /**
   * The maximum-likelihood estimate.
   *
   * @param mu location of ln T
   * @param sigma scale of ln T, above 0
   * @param finalFraction fraction that ever has its event, above 0 and at most 1; 1 if the model
   *     has none
   */
  public record Estimate(double mu, double sigma, double finalFraction, double logLikelihood) {}

  /** A fitted parameter. */
  public enum Parameter {
    MU(0),
    SIGMA(1),
    FINAL_FRACTION(2);

    private final int index;

    Parameter(int index) {
      this.index = index;
    }
  }

  private final TimeModel model;
  private final List<Censored> rows;
  private final IntervalLikelihood likelihood;
  private final Maximum.@Nullable Top top;
  private final @Nullable NoFit reason;

  /** Profile intervals that were computed already. */
  private final Map<Parameter, ConfidenceInterval> intervals = new ConcurrentHashMap<>();

  private IntervalFit(
      TimeModel model, List<Censored> rows, Maximum.@Nullable Top top, @Nullable NoFit reason) {
    this.model = model;
    this.rows = rows;
    this.likelihood = new IntervalLikelihood(model, rows);
    this.top = top;
    this.reason = reason;
  }

  /** Fits a model. */
  public static IntervalFit of(TimeModel model, List<Censored> all) {
    List<Censored> rows = Censored.compact(all);
    if (rows.isEmpty()) {
      return new IntervalFit(model, rows, null, NoFit.NO_CHECK);
    }
    if (Censored.met(rows) == 0) {
      return new IntervalFit(model, rows, null, NoFit.NONE_GERMINATED);
    }
    if (model.withFinalFraction() && rows.stream().noneMatch(Censored::open)) {
      IntervalFit whole = of(new TimeModel(model.family(), false), rows);
      return new IntervalFit(
          model, rows, null, whole.identified() ? NoFit.EVERY_SEED : whole.reason());
    }
    IntervalLikelihood likelihood = new IntervalLikelihood(model, rows);
    Maximum.Top top = LikelihoodSearch.highest(likelihood, Starts.of(model, rows));
    NoFit reason = LikelihoodSearch.whyNotIdentified(model, rows, likelihood, top);
    return new IntervalFit(model, rows, reason == null ? top : null, reason);
  }

  /**
   * The estimate found by one search from a start near the maximum, for a sequence of similar fits.
   * Does not check whether the model is identified. Empty if the likelihood is 0 at all starts.
   *
   * @param near start; null for the default starts
   */
  public static Optional<Estimate> near(
      TimeModel model, List<Censored> all, @Nullable Estimate near) {
    List<Censored> rows = Censored.compact(all);
    if (rows.isEmpty() || Censored.met(rows) == 0) {
      return Optional.empty();
    }
    IntervalLikelihood likelihood = new IntervalLikelihood(model, rows);
    Maximum.Top top =
        near == null ? null : LikelihoodSearch.highest(likelihood, List.of(start(model, near)));
    Maximum.Top found =
        top == null ? LikelihoodSearch.highest(likelihood, Starts.of(model, rows)) : top;
    return Optional.ofNullable(found).map(high -> estimate(model, high.at(), high.value()));
  }

  private static double[] start(TimeModel model, Estimate near) {
    double[] start = {near.mu(), Math.log(near.sigma()), 0};
    // At the bound the gradient is 0, so the search would not leave it.
    double fraction = Math.min(NEAR_BOUND, near.finalFraction());
    start[2] = Logit.of(fraction);
    return model.withFinalFraction() ? start : new double[] {start[0], start[1]};
  }

  /** All six models: three distributions, each without and with a final fraction. */
  public static List<IntervalFit> all(List<Censored> rows) {
    List<IntervalFit> fits = new ArrayList<>();
    for (boolean withFraction : new boolean[] {false, true}) {
      for (TimeFamily family : TimeFamily.values()) {
        fits.add(of(new TimeModel(family, withFraction), rows));
      }
    }
    return fits;
  }

  /** The identified fit with the lowest AIC; empty if none is identified. */
  public static Optional<IntervalFit> best(List<IntervalFit> fits) {
    return fits.stream()
        .filter(IntervalFit::identified)
        .min((a, b) -> Double.compare(a.aic(), b.aic()));
  }

  /**
   * The 95 % interval of the final fraction, averaged over the distributions because the true one
   * is not known: see {@link AveragedFraction}. Empty if no distribution identifies it.
   *
   * @param fits fits of {@link #all}
   */
  public static Optional<ConfidenceInterval> finalFraction(List<IntervalFit> fits) {
    List<AveragedFraction.Family> families = new ArrayList<>();
    for (IntervalFit with : fits) {
      if (with.model.withFinalFraction()) {
        fits.stream()
            .filter(fit -> fit.model.family() == with.model.family() && fit.identified())
            .filter(
                fit -> fit == with || (!fit.model.withFinalFraction() && with.fractionOnBound()))
            .findFirst()
            .map(IntervalFit::fractionOfFamily)
            .ifPresent(families::add);
      }
    }
    return families.isEmpty()
        ? Optional.empty()
        : Optional.of(new AveragedFraction(families).limits());
  }

  private AveragedFraction.Family fractionOfFamily() {
    double[] at = top().at();
    double logit = model.withFinalFraction() ? at[2] : BOUND_LOGIT;
    return new AveragedFraction.Family(
        freed(new double[] {at[0], at[1], logit}, Parameter.FINAL_FRACTION),
        logit,
        top().value(),
        finalFractionLimits());
  }

  public TimeModel model() {
    return model;
  }

  public boolean identified() {
    return top != null;
  }

  /** The reason why the fit is not identified; null if it is. */
  public @Nullable NoFit reason() {
    return reason;
  }

  /**
   * Whether the fit is not identified because the estimated final fraction is 1. The fit without a
   * final fraction is then equal.
   */
  public boolean fractionOnBound() {
    return reason == NoFit.EVERY_SEED || reason == NoFit.ON_BOUND;
  }

  /**
   * Whether the median is more than twice the time, or heat, of the last check, too far beyond the
   * data to be reliable.
   */
  public boolean medianBeyond() {
    double lastLook =
        rows.stream().mapToDouble(row -> row.open() ? row.left() : row.right()).max().orElse(0);
    return median() > MAX_MEDIAN_RATIO * lastLook;
  }

  /**
   * The estimate.
   *
   * @throws IllegalStateException if the fit is not identified
   */
  public Estimate estimate() {
    Maximum.Top found = top();
    return estimate(model, found.at(), found.value());
  }

  private static Estimate estimate(TimeModel model, double[] at, double value) {
    double fraction = model.withFinalFraction() ? Logit.fraction(at[2]) : 1;
    return new Estimate(at[0], Math.exp(at[1]), fraction, value);
  }

  private Maximum.Top top() {
    if (top == null) {
      throw new IllegalStateException("not identified: " + reason);
    }
    return top;
  }

  /**
   * Akaike's information criterion, 2 k − 2 ln L; IEEE Transactions on Automatic Control 19 (1974)
   * 716-723.
   */
  public double aic() {
    return 2 * model.parameters() - 2 * top().value();
  }

  /** The median time of those that ever have their event. */
  public double median() {
    return Math.exp(top().at()[0] + Math.exp(top().at()[1]) * model.family().quantile(0.5));
  }

  /**
   * Standard errors of μ, ln σ and ln(p / (1 − p)), from the curvature of the log-likelihood at its
   * maximum.
   */
  public double[] standardErrors() {
    double[][] covariance = covariance();
    double[] errors = new double[covariance.length];
    for (int i = 0; i < errors.length; i++) {
      errors[i] = Math.sqrt(covariance[i][i]);
    }
    return errors;
  }

  /**
   * The covariance matrix of μ, ln σ and ln(p / (1 − p)): the inverse of the observed information.
   */
  double[][] covariance() {
    return Maximum.covariance(likelihood, top().at());
  }

  /** The estimate as μ, ln σ and ln(p / (1 − p)). */
  double[] at() {
    return top().at().clone();
  }

  IntervalLikelihood likelihood() {
    return likelihood;
  }

  /** The rows with information. */
  List<Censored> rows() {
    return rows;
  }

  /**
   * The 95 % profile-likelihood interval: all values that a likelihood-ratio test does not reject,
   * with the other parameters fitted at each value. An open end is infinite, or 0 for σ. Source:
   * Venzon and Moolgavkar, Applied Statistics 37 (1988) 87-94.
   */
  public ConfidenceInterval interval(Parameter parameter) {
    return intervals.computeIfAbsent(parameter, this::computeInterval);
  }

  private ConfidenceInterval computeInterval(Parameter parameter) {
    int index = parameter.index;
    if (index >= model.parameters()) {
      return new ConfidenceInterval(1, 1);
    }
    double low = end(index, -1);
    double high = end(index, 1);
    return switch (parameter) {
      case MU -> new ConfidenceInterval(low, high);
      case SIGMA -> new ConfidenceInterval(Math.exp(low), Math.exp(high));
      case FINAL_FRACTION -> new ConfidenceInterval(Logit.fraction(low), Logit.fraction(high));
    };
  }

  /**
   * The 95 % interval of μ over all final fractions up to 1. For a fit without a final fraction it
   * extends the interval downwards: with a fraction just below 1, the median of the others is
   * earlier.
   */
  public ConfidenceInterval muWithAnyFraction() {
    ConfidenceInterval own = interval(Parameter.MU);
    if (model.withFinalFraction()) {
      return own;
    }
    double[] start = {top().at()[0], top().at()[1], START_LOGIT};
    double step = Math.min(ROOT_DROP * standardErrors()[0], 3);
    double low = freed(start, Parameter.MU).end(-step, ROOT_DROP);
    return new ConfidenceInterval(Math.min(own.low(), low), own.high());
  }

  /**
   * The 95 % interval of the final fraction. For a fit without one, whose estimate is 1, it ends at
   * 1.
   */
  public ConfidenceInterval finalFractionLimits() {
    if (model.withFinalFraction()) {
      return interval(Parameter.FINAL_FRACTION);
    }
    double[] start = {top().at()[0], top().at()[1], BOUND_LOGIT};
    double low = freed(start, Parameter.FINAL_FRACTION).end(-1, ROOT_DROP);
    return new ConfidenceInterval(Logit.fraction(low), 1);
  }

  private Profile freed(double[] start, Parameter parameter) {
    TimeModel free = new TimeModel(model.family(), true);
    return new Profile(new IntervalLikelihood(free, rows), start, top().value(), parameter.index);
  }

  private double end(int index, int direction) {
    if (index == 2 && direction > 0 && wholeIsLikely()) {
      return Double.POSITIVE_INFINITY;
    }
    double[] at = top().at();
    double error = standardErrors()[index];
    Profile profile = new Profile(likelihood, at, top().value(), index);
    return profile.end(direction * Math.min(ROOT_DROP * error, 3), ROOT_DROP);
  }

  private boolean wholeIsLikely() {
    Maximum.Top without = LikelihoodSearch.withoutFinalFraction(model.family(), rows);
    return without != null && top().value() - without.value() < PROFILE_DROP;
  }
}
