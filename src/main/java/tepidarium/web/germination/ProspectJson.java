package tepidarium.web.germination;

import java.util.Collections;
import java.util.List;
import java.util.function.Function;
import org.jspecify.annotations.Nullable;
import tepidarium.germination.GerminationData;
import tepidarium.germination.GerminationData.Fate;
import tepidarium.germination.Prospect;
import tepidarium.stats.IntervalFit;
import tepidarium.stats.TimeFamily;
import tepidarium.web.JsonValues;

/**
 * What may still come of the seeds that remain.
 *
 * @param day of the last check of any group
 * @param notLookedAt how many of the remaining seeds nobody looked at since the sowing
 */
record ProspectJson(
    double day,
    int remaining,
    int notLookedAt,
    double withinDays,
    double soon,
    List<Double> soonLimits,
    double ever,
    List<Double> everLimits,
    double expectedMore,
    String assumption) {
  private static final double WEEK_DAYS = 7;

  /**
   * Null where nothing remains, or the counts do not tell.
   *
   * @param past for a family, the fits with a final fraction of past sowings of the species
   */
  static @Nullable ProspectJson of(
      GerminationData data, List<Double> checkDays, Function<TimeFamily, List<IntervalFit>> past) {
    int remaining = data.count(Fate.REMAINING);
    double day = checkDays.isEmpty() ? 0 : Collections.max(checkDays);
    if (remaining == 0 || day <= 0) {
      return null;
    }
    return Prospect.of(data.intervals(), waiting(data), day + WEEK_DAYS, past)
        .map(prospect -> of(prospect, day, data))
        .orElse(null);
  }

  private static List<Prospect.Remaining> waiting(GerminationData data) {
    return data.rows().stream()
        .filter(row -> row.fate() == Fate.REMAINING)
        .map(row -> new Prospect.Remaining(Math.max(0, row.from()), row.count()))
        .toList();
  }

  private static ProspectJson of(Prospect prospect, double day, GerminationData data) {
    return new ProspectJson(
        day,
        data.count(Fate.REMAINING),
        data.notLookedAt(),
        WEEK_DAYS,
        prospect.soon(),
        JsonValues.pair(prospect.soonLimits()),
        prospect.ever(),
        JsonValues.pair(prospect.everLimits()),
        prospect.expectedMore(),
        prospect.assumption());
  }
}
