package tepidarium.season;

import java.time.Instant;
import java.util.List;
import java.util.Objects;
import org.jspecify.annotations.Nullable;
import tepidarium.stats.Proportion;
import tepidarium.stats.ProportionDifference;

/**
 * A kept season against this one.
 *
 * @param species those that were sown, and looked at, in both
 * @param heat of both; null where either is not known or they were summed from different bases
 */
public record EarlierSeason(
    long season,
    String name,
    Instant from,
    Instant to,
    List<Species> species,
    @Nullable Heat heat) {
  /** What of a kept season can be compared with. */
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
   * Seeds of one species.
   *
   * @param sown in sowings that were looked at
   */
  public record Count(int germinated, int sown) {
    static Count of(SpeciesResult species) {
      return new Count(species.germinated(), species.checked());
    }
  }

  /**
   * One species in both.
   *
   * @param difference of the fractions, now less then, with the interval of Newcombe (1998); it
   *     takes every seed for one trial, whichever sowing it was of
   */
  public record Species(String species, String name, Count then, Count now, Interval difference) {}

  /** °C·h a day, then and now. */
  public record Heat(double then, double now) {}

  public EarlierSeason {
    species = List.copyOf(species);
  }

  static EarlierSeason of(Figures then, List<SpeciesResult> now, @Nullable SeasonHeat heatNow) {
    List<Species> both =
        now.stream()
            .flatMap(
                mine ->
                    then.species().stream()
                        .filter(theirs -> theirs.species().equals(mine.species()))
                        .filter(theirs -> theirs.checked() > 0 && mine.checked() > 0)
                        .map(theirs -> species(theirs, mine)))
            .toList();
    return new EarlierSeason(
        then.season(), then.name(), then.from(), then.to(), both, heat(then.heat(), heatNow));
  }

  private static Species species(SpeciesResult then, SpeciesResult now) {
    Proportion before = new Proportion(then.germinated(), then.checked());
    Proportion after = new Proportion(now.germinated(), now.checked());
    ProportionDifference both = new ProportionDifference(after, before);
    return new Species(
        now.species(),
        now.name(),
        Count.of(then),
        Count.of(now),
        Interval.of(both.difference(), both.newcombe()));
  }

  private static @Nullable Heat heat(@Nullable SeasonHeat then, @Nullable SeasonHeat now) {
    if (then == null || now == null) {
      return null;
    }
    boolean alike = then.base() == now.base() && Objects.equals(then.ceiling(), now.ceiling());
    return alike ? new Heat(then.degreeHoursPerDay(), now.degreeHoursPerDay()) : null;
  }
}
