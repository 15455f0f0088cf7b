package tepidarium.season;

import java.time.Instant;
import java.time.ZoneId;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import tepidarium.container.Container;
import tepidarium.container.ContainerId;
import tepidarium.container.Register;
import tepidarium.germination.ContainerTemperatures;
import tepidarium.heat.HeatRule;
import tepidarium.heat.HeatSum;
import tepidarium.heat.TemperatureHistogram;
import tepidarium.light.Site;
import tepidarium.reading.Span;
import tepidarium.rollup.ContainerHistory;

/** Reads each container of a season once and summarizes it. Used for one report. */
final class SeasonContainers implements ContainerTemperatures {
  private static final double HOURS_PER_DAY = 24;

  private final Register register;
  private final ContainerTemperatures temperatures;
  private final Span season;
  private final ZoneId zone;
  private final ContainerResults results;
  private final Map<ContainerId, MeasuredContainer> containers = new LinkedHashMap<>();

  /**
   * Reads all containers.
   *
   * @param now there are no readings after this instant
   * @param site null if it is not known
   */
  SeasonContainers(
      Register register,
      ContainerHistory history,
      ContainerTemperatures temperatures,
      Span season,
      Instant now,
      ZoneId zone,
      @Nullable Site site) {
    this.register = register;
    this.temperatures = temperatures;
    this.season = season;
    this.zone = zone;
    this.results = new ContainerResults(zone, site);
    // Most of a report's time goes into reading hours, so containers are read in parallel.
    register.containers().parallelStream()
        .map(container -> read(container, history, now))
        .toList()
        .forEach(measured -> containers.put(measured.id(), measured));
  }

  private MeasuredContainer read(Container container, ContainerHistory history, Instant now) {
    Span part =
        history
            .extent(container.id(), now)
            .map(season::within)
            .orElse(new Span(season.from(), season.from()));
    return new MeasuredContainer(container, part, history.summary(container, part));
  }

  @Override
  public TemperatureHistogram histogram(ContainerId container, Span span) {
    return temperatures.histogram(container, span);
  }

  @Override
  public double temperatureErrorC(ContainerId container, Span span) {
    return temperatures.temperatureErrorC(container, span);
  }

  @Override
  public double highLimitC(ContainerId container) {
    return temperatures.highLimitC(container);
  }

  /**
   * The heat of a part of the season by any rule. Time before the first or after the last reading
   * is a gap.
   */
  @Override
  public HeatSum heat(ContainerId container, Span span, HeatRule rule) {
    MeasuredContainer measured = containers.get(container);
    return measured == null
        ? HeatSum.gap(span.length().toMillis())
        : measured.summary().hours().heat(span, rule);
  }

  /** The containers that have readings or held seeds, oldest first. */
  List<ContainerResult> results(Set<ContainerId> withSeeds) {
    return containers.values().stream()
        .filter(measured -> measured.measured() || withSeeds.contains(measured.id()))
        .map(
            measured ->
                results.of(
                    measured,
                    withSeeds.contains(measured.id()),
                    register.openings(measured.id(), season)))
        .toList();
  }

  /**
   * The heat of all containers with seeds, by their most common base and ceiling.
   *
   * @return null if none of them has readings
   */
  @Nullable SeasonHeat heat(Set<ContainerId> withSeeds) {
    List<MeasuredContainer> measured =
        containers.values().stream()
            .filter(one -> one.measured() && withSeeds.contains(one.id()))
            .toList();
    if (measured.isEmpty()) {
      return null;
    }
    HeatRule rule = MeasuredContainer.commonRule(measured);
    HeatSum all = measured.stream().map(one -> one.heat(rule)).reduce(HeatSum.ZERO, HeatSum::plus);
    return new SeasonHeat(
        rule.baseC(),
        rule.ceilingC(),
        HOURS_PER_DAY * all.degreeHours() / all.coveredHours(),
        measured.size());
  }

  /** The comparison of heat sources; null if there are fewer than two. */
  @Nullable SourceComparison sources() {
    return SeasonSources.compare(List.copyOf(containers.values()), zone);
  }
}
