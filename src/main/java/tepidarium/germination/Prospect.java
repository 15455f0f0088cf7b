package tepidarium.germination;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.Function;
import tepidarium.germination.GerminationData.Fate;
import tepidarium.stats.Averaged;
import tepidarium.stats.Censored;
import tepidarium.stats.ConfidenceInterval;
import tepidarium.stats.IntervalFit;
import tepidarium.stats.Posterior;
import tepidarium.stats.TimeFamily;

/**
 * Estimates how likely it is that more seeds of a sowing germinate: within the week after its last
 * check, and ever. Probabilities are posterior means and include the uncertainty of the fit. The
 * intervals show how large this uncertainty is. Growers usually give up seeds that have not
 * germinated after six weeks (common practice, no source).
 *
 * @param soon probability that at least one more seed germinates by the end of the period, 0 to 1
 * @param soonLimits 95 % interval of {@code soon}
 * @param ever probability that at least one more seed ever germinates, 0 to 1
 * @param everLimits 95 % interval of {@code ever}
 * @param expectedMore expected number of seeds that still germinate
 * @param assumption assumptions of the estimate, as text for the grower
 * @param pastSowings number of past sowings that the estimate uses
 */
public record Prospect(
    double soon,
    ConfidenceInterval soonLimits,
    double ever,
    ConfidenceInterval everLimits,
    double expectedMore,
    String assumption,
    int pastSowings) {

  /**
   * Sound, ungerminated seeds that were last seen at the same time.
   *
   * @param since time at which they were last seen, in the unit of the rows; 0 if nobody has looked
   *     at them since sowing
   * @param seeds at least 0
   */
  public record Remaining(double since, int seeds) {
    public Remaining {
      if (!(since >= 0) || seeds < 0) {
        throw new IllegalArgumentException(seeds + " seeds last seen at " + since);
      }
    }
  }

  private static String assumption(int past) {
    String curve =
        "The remaining seeds are sound and germinate by the same curve as the "
            + "earlier ones. Some may never germinate; their share is estimated. The times of the "
            + "others follow a lognormal, loglogistic or Weibull distribution; each is "
            + "weighted by its fit. The temperature stays as it was. ";
    return past == 0
        ? curve + "Only the counts of this sowing are used."
        : curve
            + "The parameters of the curve are assumed to be similar to those of past "
            + "sowings ("
            + past
            + "), weighted by how well these agree, and are then updated with the "
            + "counts of this sowing.";
  }

  /** Length of the period for {@code soon}: 7 days from the last check. */
  public static final double WEEK_DAYS = 7;

  /**
   * Estimates the prospect of a sowing. The period ends 7 days after its last check.
   *
   * @param checkDays times of its checks, days since sowing
   * @param past for a family, fits of past sowings of the species, each with a final fraction
   * @return empty if no seed remains, if there was no check, or if the counts do not suffice
   */
  public static Optional<Prospect> of(
      GerminationData data, List<Double> checkDays, Function<TimeFamily, List<IntervalFit>> past) {
    double day = checkDays.stream().mapToDouble(Double::doubleValue).max().orElse(0);
    if (data.count(Fate.REMAINING) == 0 || day <= 0) {
      return Optional.empty();
    }
    List<Remaining> remaining =
        data.rows().stream()
            .filter(row -> row.fate() == Fate.REMAINING)
            .map(row -> new Remaining(Math.max(0, row.from()), row.count()))
            .toList();
    return of(data.intervals(), remaining, day + WEEK_DAYS, past);
  }

  /**
   * Estimates the prospect from the counts of this sowing. Identified fits of past sowings serve as
   * the prior distribution.
   *
   * @param rows counts of this sowing; they include the remaining seeds as right-censored rows
   * @param remaining remaining seeds by the time at which they were last seen
   * @param periodEnd end of the period, in the unit of the rows; later than every {@code since}
   * @param past for a family, fits of past sowings of the species, each with a final fraction; fits
   *     that are not identified are ignored
   * @return empty if the counts do not identify a model: too few seeds germinated, or all between
   *     the same two checks
   */
  public static Optional<Prospect> of(
      List<Censored> rows,
      List<Remaining> remaining,
      double periodEnd,
      Function<TimeFamily, List<IntervalFit>> past) {
    if (!(periodEnd > 0) || remaining.stream().anyMatch(group -> group.since() >= periodEnd)) {
      throw new IllegalArgumentException(
          "the period must end after the last time at which seeds were seen, not at " + periodEnd);
    }
    List<Posterior> withoutPrior = new ArrayList<>();
    List<Posterior> withPrior = new ArrayList<>();
    int sowings = 0;
    for (TimeFamily family : TimeFamily.values()) {
      List<IntervalFit> fits = past.apply(family).stream().filter(IntervalFit::identified).toList();
      Posterior.Prior prior = fits.isEmpty() ? null : Posterior.Prior.ofPast(fits);
      Posterior.of(family, rows, prior).ifPresent((prior == null ? withoutPrior : withPrior)::add);
      sowings = Math.max(sowings, fits.size());
    }
    if (!withPrior.isEmpty()) {
      return Optional.of(of(new Averaged(withPrior), remaining, periodEnd, sowings));
    }
    return withoutPrior.isEmpty()
        ? Optional.empty()
        : Optional.of(of(new Averaged(withoutPrior), remaining, periodEnd, 0));
  }

  private static Prospect of(
      Averaged posterior, List<Remaining> remaining, double periodEnd, int pastSowings) {
    double end = Double.POSITIVE_INFINITY;
    return new Prospect(
        posterior.mean((p, d) -> anyOf(remaining, p, d, periodEnd)),
        posterior.limits((p, d) -> anyOf(remaining, p, d, periodEnd)),
        posterior.mean((p, d) -> anyOf(remaining, p, d, end)),
        posterior.limits((p, d) -> anyOf(remaining, p, d, end)),
        posterior.mean((p, d) -> expected(remaining, p, d)),
        assumption(pastSowings),
        pastSowings);
  }

  /**
   * The probability that at least one seed germinates by a time. Given a draw, seeds are
   * independent.
   */
  private static double anyOf(
      List<Remaining> remaining, Posterior posterior, Posterior.Draw draw, double by) {
    double logNone = 0;
    for (Remaining group : remaining) {
      double chance = posterior.meets(draw, group.since(), by);
      logNone += group.seeds() == 0 ? 0 : group.seeds() * Math.log1p(-chance);
    }
    return -Math.expm1(logNone);
  }

  private static double expected(
      List<Remaining> remaining, Posterior posterior, Posterior.Draw draw) {
    return remaining.stream()
        .mapToDouble(
            group -> group.seeds() * posterior.meets(draw, group.since(), Double.POSITIVE_INFINITY))
        .sum();
  }
}
