package tepidarium.germination;

import java.util.List;
import java.util.Optional;
import tepidarium.stats.Censored;
import tepidarium.stats.IntervalFit;
import tepidarium.stats.Limits;
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
    Limits soonLimits,
    double ever,
    Limits everLimits,
    double expectedMore,
    String assumption) {

  private static String assumption(TimeFamily family, int past) {
    String curve =
        "The remaining seeds are sound, and germinate by the same curve as those before them: a"
            + " fraction of the lot never does, the others take times after a "
            + family.word()
            + " distribution, kept as warm as until now. ";
    return past == 0
        ? curve + "Nothing but this sowing's own counts is used."
        : curve
            + "Its numbers are taken to be like those of the past sowings ("
            + past
            + "), as far as these agree, and then like this sowing's own counts.";
  }

  /**
   * From this sowing's counts, and past ones where there are some.
   *
   * @param rows this sowing's counts; the remaining seeds are in it as never seen, since {@code
   *     now}
   * @param now the last check, in the unit of the rows, above 0
   * @param stretch how far to look, such as a week, above 0
   * @param remaining sound seeds that have not germinated, at least 0
   * @param past fits, with a final fraction, of past sowings of the species by the same family;
   *     those that are not identified say nothing
   * @return none where the counts do not tell: too few germinated, or all between the same checks
   */
  public static Optional<Prospect> of(
      TimeFamily family,
      List<Censored> rows,
      double now,
      double stretch,
      int remaining,
      List<IntervalFit> past) {
    if (!(now > 0 && stretch > 0) || remaining < 0) {
      throw new IllegalArgumentException("a check, a stretch and seeds are needed");
    }
    List<IntervalFit> fits = past.stream().filter(IntervalFit::identified).toList();
    String words = assumption(family, fits.size());
    return Posterior.of(family, rows, fits.isEmpty() ? null : Posterior.Prior.ofPast(fits))
        .map(posterior -> of(posterior, now, stretch, remaining, words));
  }

  private static Prospect of(
      Posterior posterior, double now, double stretch, int remaining, String words) {
    double end = Double.POSITIVE_INFINITY;
    return new Prospect(
        posterior.mean(d -> oneOf(remaining, posterior.meets(d, now, now + stretch))),
        posterior.limits(d -> oneOf(remaining, posterior.meets(d, now, now + stretch))),
        posterior.mean(d -> oneOf(remaining, posterior.meets(d, now, end))),
        posterior.limits(d -> oneOf(remaining, posterior.meets(d, now, end))),
        remaining * posterior.mean(d -> posterior.meets(d, now, end)),
        words);
  }

  private static double oneOf(int seeds, double chance) {
    return chance >= 1 ? (seeds > 0 ? 1 : 0) : -Math.expm1(seeds * Math.log1p(-chance));
  }
}
