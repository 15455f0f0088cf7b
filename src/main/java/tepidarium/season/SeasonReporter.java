package tepidarium.season;

import java.time.Instant;
import java.time.ZoneId;
import java.util.List;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import tepidarium.container.ContainerId;
import tepidarium.container.Register;
import tepidarium.germination.ContainerTemperatures;
import tepidarium.germination.SowingFinder;
import tepidarium.light.Site;
import tepidarium.reading.Span;
import tepidarium.rollup.ContainerHistory;

/** Makes the report of a season from the readings and the germination record. Thread-safe. */
public final class SeasonReporter {
  private final Register register;
  private final ContainerHistory history;
  private final ContainerTemperatures temperatures;
  private final SowingFinder sowings;
  private final ZoneId zone;
  private final @Nullable Site site;

  /**
   * A reporter for one site.
   *
   * @param zone time zone of the day boundaries
   * @param site null if it is not known
   */
  public SeasonReporter(
      Register register,
      ContainerHistory history,
      ContainerTemperatures temperatures,
      SowingFinder sowings,
      ZoneId zone,
      @Nullable Site site) {
    this.register = register;
    this.history = history;
    this.temperatures = temperatures;
    this.sowings = sowings;
    this.zone = zone;
    this.site = site;
  }

  /**
   * The report of a season.
   *
   * @param now there are no readings after this instant
   * @param earlier stored seasons to compare with, latest first
   */
  public SeasonReport report(Span season, Instant now, List<EarlierSeason.Figures> earlier) {
    SeasonContainers containers =
        new SeasonContainers(register, history, temperatures, season, now, zone, site);
    SeasonSowings sown = new SeasonSowings(sowings, register, season);
    Set<ContainerId> withSeeds = sown.containers();
    return SeasonReport.of(
        season.from(),
        season.to(),
        sown.results(containers),
        sown.earlier(),
        containers.results(withSeeds),
        containers.heat(withSeeds),
        containers.sources(),
        earlier);
  }

  /**
   * The instant of the first sowing in a span.
   *
   * @return null if nothing was sown in it
   */
  public @Nullable Instant firstSowing(Instant from, Instant to) {
    return sowings.all().stream()
        .map(sowing -> sowings.timeline(sowing).sownAt())
        .filter(sown -> !sown.isBefore(from) && sown.isBefore(to))
        .min(Instant::compareTo)
        .orElse(null);
  }
}
