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
 * Whether it is worth to wait for the seeds that remain: how likely at least one more germinates,
 * within the next stretch and ever. The means carry in how uncertain the fit is; the limits say how
 * far that uncertainty goes. Common practice, no source: what has not germinated in six weeks will
 * not.
 *
 * @param soon probability of one more or several within the stretch
 * @param soonLimits of that probability, 95 %
 * @param ever probability of one more or several, however long it takes
 * @param everLimits of that probability, 95 %
 * @param expectedMore how many more are to be expected, ever
 * @param assumption what this takes for granted, in words
 */
public record Prospect(
    double soon,
    ConfidenceInterval soonLimits,
    double ever,
    ConfidenceInterval everLimits,
    double expectedMore,
    String assumption) {

  /**
   * Sound seeds of this sowing that have not germinated.
   *
   * @param since when they were last seen, in the unit of the rows; 0 where nobody looked yet
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
        "The remaining seeds are sound, and germinate by the same curve as those before them: a"
            + " fraction of the lot never does, the others take times after a lognormal, loglogistic"
            + " or Weibull distribution, each weighted by how well it fits, kept as warm as until"
            + " now. ";
    return past == 0
        ? curve + "Nothing but this sowing's own counts is used."
        : curve
            + "Its numbers are taken to be like those of the past sowings ("
            + past
            + "), as far as these agree, and then like this sowing's own counts.";
  }

  /** The stretch after the last check that {@code soon} is about, in days. */
  public static final double WEEK_DAYS = 7;

  /**
   * The prospect of a sowing for the week after its last check.
   *
   * @param checkDays days of its checks since sowing
   * @param past as for the other method
   * @return none if no seeds remain, if there was no check, or if the counts do not suffice
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
   * From this sowing's counts, and past ones where there are some.
   *
   * @param rows this sowing's counts; the remaining seeds are in it too, as never seen to germinate
   * @param remaining seeds by when they were last seen; each germinates only after that
   * @param soonBy the end of the next stretch, such as a week after the last check, in the unit of
   *     the rows; after every time at which remaining seeds were last seen
   * @param past for a family, fits with a final fraction of past sowings of the species; those that
   *     are not identified say nothing
   * @return none where the counts do not tell: too few germinated, or all between the same checks
   */
  public static Optional<Prospect> of(
      List<Censored> rows,
      List<Remaining> remaining,
      double soonBy,
      Function<TimeFamily, List<IntervalFit>> past) {
    if (!(soonBy > 0) || remaining.stream().anyMatch(one -> one.since() >= soonBy)) {
      throw new IllegalArgumentException(
          "the stretch must end after all seeds were last seen, not at " + soonBy);
    }
    List<Posterior> alone = new ArrayList<>();
    List<Posterior> afterPast = new ArrayList<>();
    int sowings = 0;
    for (TimeFamily family : TimeFamily.values()) {
      List<IntervalFit> fits = past.apply(family).stream().filter(IntervalFit::identified).toList();
      Posterior.Prior prior = fits.isEmpty() ? null : Posterior.Prior.ofPast(fits);
      Posterior.of(family, rows, prior).ifPresent((prior == null ? alone : afterPast)::add);
      sowings = Math.max(sowings, fits.size());
    }
    if (!afterPast.isEmpty()) {
      return Optional.of(of(new Averaged(afterPast), remaining, soonBy, assumption(sowings)));
    }
    return alone.isEmpty()
        ? Optional.empty()
        : Optional.of(of(new Averaged(alone), remaining, soonBy, assumption(0)));
  }

  private static Prospect of(
      Averaged posterior, List<Remaining> remaining, double soonBy, String words) {
    double end = Double.POSITIVE_INFINITY;
    return new Prospect(
        posterior.mean((p, d) -> anyOf(remaining, p, d, soonBy)),
        posterior.limits((p, d) -> anyOf(remaining, p, d, soonBy)),
        posterior.mean((p, d) -> anyOf(remaining, p, d, end)),
        posterior.limits((p, d) -> anyOf(remaining, p, d, end)),
        posterior.mean((p, d) -> expected(remaining, p, d)),
        words);
  }

  /** The probability that at least one germinates by a time, each on its own. */
  private static double anyOf(
      List<Remaining> remaining, Posterior posterior, Posterior.Draw draw, double by) {
    double logNone = 0;
    for (Remaining one : remaining) {
      double chance = posterior.meets(draw, one.since(), by);
      logNone += one.seeds() == 0 ? 0 : one.seeds() * Math.log1p(-chance);
    }
    return -Math.expm1(logNone);
  }

  private static double expected(
      List<Remaining> remaining, Posterior posterior, Posterior.Draw draw) {
    return remaining.stream()
        .mapToDouble(
            one -> one.seeds() * posterior.meets(draw, one.since(), Double.POSITIVE_INFINITY))
        .sum();
  }
}
