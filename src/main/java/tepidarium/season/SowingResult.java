package tepidarium.season;

import java.time.Instant;
import java.util.List;
import org.jspecify.annotations.Nullable;
import tepidarium.stats.Proportion;

/**
 * The result of a sowing at the end of the season. Every seed is germinated, culled ungerminated,
 * or remaining.
 *
 * @param name name given by the grower, or the species and the number of the sowing
 * @param notLookedAt sound seeds that were never checked
 * @param fraction germinated fraction of the checked seeds, with Wilson's interval; null if none
 *     were checked
 * @param culled seeds culled before they germinated
 * @param culledFor numbers of culled seeds by reason, most common first; includes germinated seeds
 * @param pottedOn germinated seeds that were potted on
 * @param alive potted seedlings that are alive, according to the last count
 * @param remaining sound, ungerminated seeds
 * @param firstFoundDay time of the check that found the first germinated seed, days since sowing
 * @param watchedDays mean time at which the remaining seeds were last seen, days since sowing; the
 *     last check if none remains; null before the first check
 * @param halfBetween bounds of the time by which half of the sown seeds had germinated, days since
 *     sowing; null if fewer germinated
 * @param heat heat along the paths of its groups until their last checks; null before the first
 *     check
 * @param containers names of the containers that held its seeds, in order
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
    @Nullable EstimateWithLimits fraction,
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
  /** The number of seeds culled for one reason. */
  public record CulledFor(String reason, int seeds) {}

  /**
   * The heat of a sowing in °C·h and its time in h: the mean over its groups, weighted by their
   * seeds.
   *
   * @param base base temperature of the species, °C
   * @param lower lower bound of the heat: none in the gaps
   * @param upper upper bound of the heat: gaps at the ceiling, or without one at the high limit
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

  /** The number of checked seeds. */
  int lookedAt() {
    return seeds - notLookedAt;
  }

  /** The germinated seeds of the checked ones; at least one seed must be checked. */
  Proportion proportion() {
    return new Proportion(germinated, lookedAt());
  }
}
