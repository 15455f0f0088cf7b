package tepidarium.web.germination;

import java.util.Collections;
import java.util.List;
import org.jspecify.annotations.Nullable;
import tepidarium.germination.GerminationData;
import tepidarium.germination.GerminationData.Fate;
import tepidarium.germination.Prospect;
import tepidarium.germination.SowingTimeline;
import tepidarium.web.JsonValues;

/**
 * How likely the remaining seeds of a sowing germinate.
 *
 * @param day of the last check of any group, days since sowing
 * @param notLookedAt number of remaining seeds in groups that were never checked
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
    String assumption,
    int pastSowings) {
  /** Null if there is no prospect. */
  static @Nullable ProspectJson of(@Nullable Prospect prospect, SowingTimeline timeline) {
    return prospect == null ? null : known(prospect, timeline);
  }

  private static ProspectJson known(Prospect prospect, SowingTimeline timeline) {
    GerminationData data = timeline.data();
    return new ProspectJson(
        Collections.max(timeline.checkDays()),
        data.count(Fate.REMAINING),
        data.notLookedAt(),
        Prospect.WEEK_DAYS,
        prospect.soon(),
        JsonValues.pair(prospect.soonLimits()),
        prospect.ever(),
        JsonValues.pair(prospect.everLimits()),
        prospect.expectedMore(),
        prospect.assumption(),
        prospect.pastSowings());
  }
}
