package tepidarium.season;

import java.time.Instant;
import java.util.List;
import java.util.Objects;
import org.jspecify.annotations.Nullable;
import tepidarium.stats.Proportion;
import tepidarium.stats.ProportionDifference;

/**
 * A stored earlier season, compared with this one.
 *
 * @param species species with checked seeds in both seasons
 * @param heat heat of both seasons; null if one is not known or if their bases or ceilings differ
 */
public record EarlierSeason(
    long season,
    String name,
    Instant from,
    Instant to,
    List<Species> species,
    @Nullable Heat heat) {
  /** The figures of a stored season that are used for comparison. */
  public record Figures(
      long season,
      String name,
      Instant from,
      Instant to,
      List<SpeciesResult> species,
      @Nullable SeasonHeat heat) {
    public Figures {
      species = List.copyOf(species);
    }
  }

  /**
   * Counts of one species.
   *
   * @param sown number of checked seeds
   */
  public record Count(int germinated, int sown) {
    static Count of(SpeciesResult species) {
      return new Count(species.germinated(), species.checked());
    }
  }

  /**
   * One species in both seasons.
   *
   * @param difference difference of the fractions, this season less the earlier one, with
   *     Newcombe's interval (1998); all seeds count as independent trials
   */
  public record Species(
      String species, String name, Count then, Count now, EstimateWithLimits difference) {}

  /** Heat per day in the earlier and in this season, °C·h per day. */
  public record Heat(double then, double now) {}

  public EarlierSeason {
    species = List.copyOf(species);
  }

  static EarlierSeason of(Figures then, List<SpeciesResult> now, @Nullable SeasonHeat heatNow) {
    List<Species> difference =
        now.stream()
            .flatMap(
                current ->
                    then.species().stream()
                        .filter(previous -> previous.species().equals(current.species()))
                        .filter(previous -> previous.checked() > 0 && current.checked() > 0)
                        .map(previous -> species(previous, current)))
            .toList();
    return new EarlierSeason(
        then.season(), then.name(), then.from(), then.to(), difference, heat(then.heat(), heatNow));
  }

  private static Species species(SpeciesResult then, SpeciesResult now) {
    Proportion before = new Proportion(then.germinated(), then.checked());
    Proportion after = new Proportion(now.germinated(), now.checked());
    ProportionDifference difference = new ProportionDifference(after, before);
    return new Species(
        now.species(),
        now.name(),
        Count.of(then),
        Count.of(now),
        EstimateWithLimits.of(difference.difference(), difference.newcombe()));
  }

  private static @Nullable Heat heat(@Nullable SeasonHeat then, @Nullable SeasonHeat now) {
    if (then == null || now == null) {
      return null;
    }
    boolean sameRule = then.base() == now.base() && Objects.equals(then.ceiling(), now.ceiling());
    return sameRule ? new Heat(then.degreeHoursPerDay(), now.degreeHoursPerDay()) : null;
  }
}
