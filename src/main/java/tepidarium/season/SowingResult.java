package tepidarium.season;

import java.time.Instant;
import java.util.List;
import org.jspecify.annotations.Nullable;
import tepidarium.stats.Proportion;

/**
 * What was sown and what had come of it by the end of the season. At every instant the seeds are
 * germinated, culled before they germinated, or remaining.
 *
 * @param name as the grower calls it, or its species and number
 * @param notLookedAt sound seeds of groups that nobody looked at since the sowing
 * @param fraction germinated by those looked at, with the interval after Wilson; null where nobody
 *     looked at any
 * @param culled discarded ungerminated
 * @param culledFor why, the commonest reason first; germinated ones included
 * @param pottedOn of those that germinated
 * @param alive of those potted on, as far as known
 * @param remaining sound and ungerminated when last seen
 * @param firstFoundDay the check at which the first germinated seed was found, days since sowing
 * @param watchedDays for how long the seeds that remain were watched: the mean over them of the day
 *     on which each was last seen; until the last check where none remains; null before the first
 * @param halfBetween between which days half of the sown seeds had germinated; null where they had
 *     not
 * @param heat along the paths of its groups until the last check of each; null before the first
 * @param containers the names of those that its seeds lay in, in order
 */
public record SowingResult(
    long sowing,
    String name,
    String species,
    String speciesName,
    long lot,
    Instant sownAt,
    int seeds,
    int notLookedAt,
    int germinated,
    @Nullable Interval fraction,
    int culled,
    List<CulledFor> culledFor,
    int pottedOn,
    int alive,
    int remaining,
    @Nullable Double firstFoundDay,
    @Nullable Double lastCheckDay,
    @Nullable Double watchedDays,
    @Nullable List<Double> halfBetween,
    @Nullable Heat heat,
    List<String> containers) {
  /** So many discarded for one reason. */
  public record CulledFor(String reason, int seeds) {}

  /**
   * Degree-hours, °C·h, and hours: the mean over the groups, weighted by their seeds.
   *
   * @param base temperature of the species, °C
   * @param lower if the seeds received nothing in the gaps
   * @param upper if they lay at the ceiling, or else the band's high limit, in the gaps
   */
  public record Heat(
      double base,
      @Nullable Double ceiling,
      double degreeHours,
      double lower,
      double upper,
      double coveredHours,
      double gapHours) {}

  public SowingResult {
    culledFor = List.copyOf(culledFor);
    halfBetween = halfBetween == null ? null : List.copyOf(halfBetween);
    containers = List.copyOf(containers);
  }

  /** Seeds that somebody looked at since the sowing; of the others nothing is known. */
  int lookedAt() {
    return seeds - notLookedAt;
  }

  /** Germinated by looked at, at least one. */
  Proportion proportion() {
    return new Proportion(germinated, lookedAt());
  }
}
