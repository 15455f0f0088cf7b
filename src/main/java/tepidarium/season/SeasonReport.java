package tepidarium.season;

import java.time.Duration;
import java.time.Instant;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * The report of a season.
 *
 * @param earlierSowings number of sowings made before the season that still had seeds in a
 *     container; they are not in {@code sowings}
 * @param species results by species
 * @param containers containers that held seeds or have readings
 * @param heat null if no container with seeds has readings
 * @param pairs comparisons of sowings of one species
 * @param pairsLeftOut number of pairs that are not shown
 * @param heatSources null if there are fewer than two heat sources
 * @param earlier stored seasons that ended before this one began, latest first
 * @param lessons lessons by weight, greatest first
 */
public record SeasonReport(
    Instant from,
    Instant to,
    List<SowingResult> sowings,
    int earlierSowings,
    List<SpeciesResult> species,
    List<ContainerResult> containers,
    @Nullable SeasonHeat heat,
    List<SowingPair> pairs,
    int pairsLeftOut,
    @Nullable SourceComparison heatSources,
    List<EarlierSeason> earlier,
    List<Lesson> lessons) {
  public SeasonReport {
    sowings = List.copyOf(sowings);
    species = List.copyOf(species);
    containers = List.copyOf(containers);
    pairs = List.copyOf(pairs);
    earlier = List.copyOf(earlier);
    lessons = List.copyOf(lessons);
  }

  /**
   * Makes the report: adds comparisons and lessons to the results.
   *
   * @param kept stored seasons to compare with, latest first
   */
  public static SeasonReport of(
      Instant from,
      Instant to,
      List<SowingResult> sowings,
      int earlierSowings,
      List<ContainerResult> containers,
      @Nullable SeasonHeat heat,
      @Nullable SourceComparison heatSources,
      List<EarlierSeason.Figures> kept) {
    List<SpeciesResult> species = SpeciesResult.of(sowings);
    List<SowingPair> all = SowingPair.all(sowings);
    List<SowingPair> shown = SowingPair.shown(all);
    List<EarlierSeason> earlier =
        kept.stream().map(then -> EarlierSeason.of(then, species, heat)).toList();
    return new SeasonReport(
        from,
        to,
        sowings,
        earlierSowings,
        species,
        containers,
        heat,
        shown,
        all.size() - shown.size(),
        heatSources,
        earlier,
        Lessons.of(Duration.between(from, to), sowings, containers, shown, heatSources, earlier));
  }
}
